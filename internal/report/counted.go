package report

import "fmt"

// Counted is a number of things in words that a maker reads: "1 panel",
// "3 panels".
func Counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
