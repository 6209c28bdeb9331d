package answers

import (
	"reflect"
	"strings"
	"testing"
)

// Every quantity is read by the word that names it, and by no other.
func TestQuantityWords(t *testing.T) {
	words := QuantityWords()
	for i, word := range words {
		if q, err := ParseQuantity(word); err != nil || q != Quantity(i) || q.String() != word {
			t.Errorf("%q: %v, %v", word, q, err)
		}
	}
	for _, word := range []string{"", "Cover", "covers", "pit"} {
		_, err := ParseQuantity(word)
		if err == nil {
			t.Errorf("%q is read", word)
			continue
		}
		for _, known := range words {
			if !strings.Contains(err.Error(), known) {
				t.Errorf("%q: %v; want all words that are read", word, err)
			}
		}
	}
}

// A set names what is in it, in its own order.
func TestSetWords(t *testing.T) {
	if got := (TakesGround | TakesOwner | TakesDig).Words(); !reflect.DeepEqual(got, []string{"owner", "dig", "lower ground at the far end"}) {
		t.Errorf("takes %q", got)
	}
	if got := (RiskDeepWater | RiskStarts).Words(); !reflect.DeepEqual(got, []string{"pump-starts", "deep-water"}) {
		t.Errorf("risks %q", got)
	}
	if got := Takes(0).Words(); len(got) != 0 {
		t.Errorf("nothing takes %q", got)
	}
	if all := Takes(1<<len(takesWords) - 1); !reflect.DeepEqual(all.Words(), takesWords) {
		t.Errorf("all takes %q", all.Words())
	}
	if all := Risks(1<<len(riskWords) - 1); all != RiskStarts|RiskWallWater|RiskErosion|RiskDraught|RiskWalk|RiskDeepWater {
		t.Errorf("all risks are %b", all)
	}
}

// Each effect, each kind of change and each goal has a word of its own.
func TestStableWords(t *testing.T) {
	seen := map[string]bool{}
	for e := Prevents; e <= Harms; e++ {
		if w := e.String(); w == "" || seen[w] {
			t.Errorf("effect %d: %q", int(e), w)
		} else {
			seen[w] = true
		}
	}
	clear(seen)
	for k := Insulate; k <= NoRelief; k++ {
		if w := k.String(); w == "" || seen[w] {
			t.Errorf("kind %d: %q", int(k), w)
		} else {
			seen[w] = true
		}
	}
}
