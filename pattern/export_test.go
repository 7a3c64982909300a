package pattern

// CheckPiece is checkPiece for tests outside the package.
var CheckPiece = checkPiece
