package units

import "fmt"

// Of more faults of one kind than mostAlike only the first toldAlike are told one by one.
const (
	mostAlike = 12
	toldAlike = 3
)

// FewOfAKind returns problems in the order of the file with those that are alike told together:
// where one column lacks the same thing row after row, the first few stand for all, so that a
// fault of another kind is not lost among them.
func (ps Problems) FewOfAKind() Problems {
	type kind struct{ file, key, expected string }
	of := func(p Problem) kind { return kind{p.File, p.Key, p.Expected} }
	count, last := map[kind]int{}, map[kind]int{}
	for _, p := range ps {
		count[of(p)]++
		last[of(p)] = p.Line
	}
	var few Problems
	told := map[kind]int{}
	for _, p := range ps {
		k := of(p)
		told[k]++
		if count[k] > mostAlike && told[k] >= toldAlike {
			if told[k] > toldAlike {
				continue
			}
			p.Found += fmt.Sprintf(", and %d more like it up to line %d", count[k]-toldAlike, last[k])
		}
		few = append(few, p)
	}
	return few
}
