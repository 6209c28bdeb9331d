package units

import (
	"fmt"
	"testing"
)

func TestFewOfAKind(t *testing.T) {
	var ps Problems
	for line := 2; line <= 101; line++ {
		ps = append(ps, Problem{File: "w.csv", Line: line, Key: "time", Found: fmt.Sprintf("%d o'clock", line), Expected: "a time"})
		if line == 50 {
			ps = append(ps, Problem{File: "w.csv", Line: line, Key: "wind_m_s", Found: `"calm"`, Expected: "a number"})
		}
	}
	few := ps.FewOfAKind()
	if len(few) != 4 || few[1].Line != 3 || few[2].Found != "4 o'clock, and 97 more like it up to line 101" || few[3].Key != "wind_m_s" {
		t.Errorf("%d problems:\n%v", len(few), few)
	}
	if twelve := ps[:12]; len(twelve.FewOfAKind()) != 12 {
		t.Errorf("of twelve alike %d are told", len(twelve.FewOfAKind()))
	}
}
