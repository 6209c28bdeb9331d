package units

import "strings"

// Nearest returns the known word that is closest to what was written by the number of letters
// to insert, drop, change or swap with a neighbour (optimal string alignment, Damerau 1964),
// or "" when none is close enough to be what was meant. The first of equals wins.
func Nearest(word string, known []string) string {
	w := fold(word)
	if len(w) > 64 {
		return ""
	}
	best, least := "", 2+len(w)/4 // more letters wrong than this is another word
	for _, k := range known {
		if n := distance(w, fold(k)); n < least {
			best, least = k, n
		}
	}
	return best
}

// fold makes case, blanks, hyphens and underscores alike.
func fold(s string) []rune {
	return []rune(strings.NewReplacer("_", " ", "-", " ").Replace(strings.ToLower(strings.TrimSpace(s))))
}

func distance(a, b []rune) int {
	before, last, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			change := last[j-1]
			if a[i-1] != b[j-1] {
				change++
			}
			row[j] = min(change, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
