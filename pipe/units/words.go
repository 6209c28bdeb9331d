package units

import (
	"fmt"
	"strconv"
)

// Shorten keeps a piece of user text short enough for a message: what is over 60 characters
// becomes "…".
func Shorten(text string) string {
	const most = 60
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}

// Plural counts things in words: "1 field", "3 fields".
func Plural(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// quote shows user text in quotes, shortened where it is long.
func quote(s string) string { return strconv.Quote(Shorten(s)) }
