package photo

// The corner marks of the printed scale card stand in a rectangle of this size,
// mm, as the card is read. It fits A4 and Letter with 20 mm to spare on a side.
const (
	CardWidth  = 160.0
	CardHeight = 240.0
)
