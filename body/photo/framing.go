package photo

// Field is how much a picture that was not cropped shows at a distance from the
// lens, mm: across and up. f35 is the focal length as on film by equal diagonal,
// mm; width and height are the picture's, or just its proportions.
func Field(distance, f35 float64, width, height int) (across, up float64) {
	px := focalPx(f35, width, height)
	return distance * float64(width) / px, distance * float64(height) / px
}

// DistanceFor is how far the lens must stand away for the longer side of a
// picture that was not cropped to show so much, mm.
func DistanceFor(field, f35 float64, width, height int) float64 {
	return field * focalPx(f35, width, height) / float64(max(width, height))
}

// WholeBody is the field in which a standing person fits with room above and
// below, mm. Common practice, no source.
const WholeBody = 2100
