package report

import "strings"

// promises are words that no output holds, in lower case and with plain spaces: a simulation cannot promise.
var promises = []string{"guarantee", "freeze-proof", "freeze proof", "freezeproof", "will never"}

// Promises finds in a text the words that no output may hold, whatever their case and wherever a line ends; each once.
func Promises(text string) (found []string) {
	plain := strings.Join(strings.Fields(strings.ToLower(text)), " ")
	for _, words := range promises {
		if strings.Contains(plain, words) {
			found = append(found, words)
		}
	}
	return found
}
