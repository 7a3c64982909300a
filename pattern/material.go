package pattern

// Material is the foam as the maker's own tests describe it.
type Material struct {
	Name      string
	Thickness float64 // mm; 0: each piece's own default
	K         float64 // where the neutral line lies, 0 (inner face) to 1 (outer face); 0.5 unless tested
	Shrink    float64 // share of length lost when heated; 0 until tested
	Density   float64 // kg/m³
	Cut       float64 // largest bevel that the tool can cut, rad from square
}
