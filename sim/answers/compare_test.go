package answers

import (
	"context"
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
	"winterline/weather/chance"
)

// deeperChange makes the shallow line into the deep one but for its title.
var deeperChange = []pipe.Edit{{Path: "yard.cover", Value: "1 m"}}

// rivals asks about the shallow line, the deep one of a case of its own, and the shallow one made deeper.
func rivals(margins bool, spans ...*weather.Series) *CompareQuestion {
	shallow := Source{Name: "shallow", File: "layout.toml", Text: []byte(shallowLine)}
	deep, deeper := shallow, shallow
	deep.Name, deep.Text = "deep", []byte(deepLine)
	deeper.Name = "deeper"
	return &CompareQuestion{Rivals: []Rival{{Source: shallow}, {Source: deep}, {Source: deeper, Changes: deeperChange}}, Spans: spans, Margins: margins, Version: "1"}
}

// coldWinter is a record of half a winter in which the shallow line freezes shut.
func coldWinter() *weather.Series {
	const from, rows = 150 * rowsADay, 60 * rowsADay
	all := winterRecord(20)
	return &weather.Series{Source: all.Source, Format: all.Format, Start: all.Stamp(all.Time[from]), Time: all.Time[:rows], Air: all.Air[from : from+rows]}
}

func comparison(t *testing.T, e *Engine, q *CompareQuestion) *Comparison {
	t.Helper()
	c, err := e.Compare(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Through one record every layout has the result and the margins that it has by itself, and one made by changes is the
// one that was written by hand.
func TestCompareIsEachByItself(t *testing.T) {
	record := coldWinter()
	c := comparison(t, &Engine{}, rivals(true, record))
	if len(c.Single) != 3 || len(c.Outcomes) != 3 || c.Outcomes[0].Shut == nil || c.Outcomes[1].Shut != nil {
		t.Fatalf("%d results, outcomes %+v", len(c.Single), c.Outcomes)
	}
	for i, text := range []string{shallowLine, deepLine} {
		k, err := Source{Name: "alone", File: "layout.toml", Text: []byte(text), Weather: record}.Case()
		if err != nil {
			t.Fatal(err)
		}
		alone, err := sim.Run(context.Background(), k, sim.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(alone.Hourly.Outlet, c.Single[i].Hourly.Outlet) || !reflect.DeepEqual(alone.Verdict, c.Single[i].Verdict) || alone.Balance.HeatExchanged != c.Single[i].Balance.HeatExchanged {
			t.Errorf("layout %d: another result beside others", i)
		}
		m, err := (&Engine{}).Margin(context.Background(), k, nil)
		if err != nil || !reflect.DeepEqual(m, *c.Outcomes[i].Margin) {
			t.Errorf("layout %d: margin %+v beside others, %+v by itself, %v", i, *c.Outcomes[i].Margin, m, err)
		}
	}
	hand, made := c.Outcomes[1], c.Outcomes[2]
	made.Layout = hand.Layout
	if !reflect.DeepEqual(hand, made) || c.Single[1].Balance.HeatExchanged != c.Single[2].Balance.HeatExchanged {
		t.Errorf("by hand %+v, by changes %+v", hand, made)
	}
}

// A record of several winters is answered as the question about every winter is, layout by layout.
func TestCompareManyWinters(t *testing.T) {
	record := winterRecord(8, 24)
	c := comparison(t, &Engine{}, rivals(false, record))
	if c.Single != nil {
		t.Fatal("one winter")
	}
	for i, text := range []string{shallowLine, deepLine} {
		alone := answerOf(t, question(record, text)).Of(0)
		for w := range alone {
			alone[w].Layout = i
		}
		if !reflect.DeepEqual(c.Of(i), alone) {
			t.Errorf("layout %d: %+v beside others, %+v by itself", i, c.Of(i), alone)
		}
	}
}

// However many workers, the answer is the same to the last bit.
func TestCompareSameForWorkers(t *testing.T) {
	for name, q := range map[string]*CompareQuestion{"one": rivals(true, coldWinter()), "many": rivals(false, winterRecord(8, 24))} {
		before := ""
		q.Rivals = q.Rivals[:2]
		for _, workers := range []int{1, 8} {
			c := comparison(t, &Engine{Workers: workers}, q)
			text, err := json.Marshal(c.Outcomes)
			if err != nil {
				t.Fatal(err)
			}
			if before != "" && string(text) != before {
				t.Errorf("%s: %d workers: another answer", name, workers)
			}
			before = string(text)
		}
	}
}

// Progress only grows, and ends at the whole.
func TestCompareProgress(t *testing.T) {
	last, whole := 0, 0
	e := &Engine{Workers: 1, Progress: func(done, of int) {
		if done < last || done > of {
			t.Errorf("%d of %d after %d", done, of, last)
		}
		last, whole = done, of
	}}
	comparison(t, e, rivals(false, coldWinter()))
	if whole == 0 || last < whole*9/10 {
		t.Errorf("ended at %d of %d", last, whole)
	}
}

// Every winter is asked for where the record has the whole of two at least, and has them as they were.
func TestManyWinters(t *testing.T) {
	typical, design := winterRecord(8, 8), winterRecord(8, 8)
	typical.Typical, design.Design = true, []string{"made"}
	for name, test := range map[string]struct {
		spans []*weather.Series
		want  bool
	}{
		"one":         {[]*weather.Series{winterRecord(8)}, false},
		"two":         {[]*weather.Series{winterRecord(8, 8)}, true},
		"two spans":   {[]*weather.Series{winterRecord(8), winterRecord(8)}, true},
		"a part":      {[]*weather.Series{coldWinter()}, false},
		"no record":   {[]*weather.Series{typical}, false},
		"a cold snap": {[]*weather.Series{design}, false},
	} {
		if got := ManyWinters(test.spans); got != test.want {
			t.Errorf("%s: %v, want %v", name, got, test.want)
		}
	}
}

// A change that is wrong is told with its key.
func TestCompareWrongChange(t *testing.T) {
	q := rivals(false, coldWinter())
	q.Rivals[2].Changes = []pipe.Edit{{Path: "yard.cover", Value: "30"}}
	if _, err := (&Engine{}).Compare(context.Background(), q); err == nil || !strings.Contains(err.Error(), "yard.cover") {
		t.Errorf("%v", err)
	}
	if _, problems := q.Rivals[2].Layout(); len(problems) != 1 {
		t.Errorf("%v", problems)
	}
}

// costed is a comparison of two layouts in four winters, in so many of which each shut, with costs.
func costed(shut [2]int, costs [2]*pipe.Cost, changes []pipe.Edit) *Comparison {
	c := &Comparison{Changes: [][]pipe.Edit{nil, changes}}
	c.About.Winters = []string{"1", "2", "3", "4"}
	for _, cost := range costs {
		c.About.Layouts = append(c.About.Layouts, LayoutAbout{Cost: cost})
	}
	for w := range c.About.Winters {
		for layout := range costs {
			o := WinterOutcome{Layout: layout, State: "clear"}
			if w < shut[layout] {
				o.State, o.Shut = "shut-relieved", new(float64)
			}
			c.Outcomes = append(c.Outcomes, o)
		}
	}
	return c
}

// Against a line that shuts in two of four winters at 400 a service call, so 200 a year, one that never does and costs
// 600 more is paid for after 3 years. Without a price, or without any costs, nothing is said.
func TestComparePayBack(t *testing.T) {
	cost := func(installed float64) *pipe.Cost { return &pipe.Cost{Installed: installed, ServiceCall: 400} }
	for name, test := range map[string]struct {
		c     *Comparison
		known bool
		years float64
		worth chance.Worth
	}{
		"pays":                 {costed([2]int{2, 0}, [2]*pipe.Cost{cost(1000), cost(1600)}, nil), true, 3, chance.PaysBack},
		"by a priced change":   {costed([2]int{2, 0}, [2]*pipe.Cost{cost(1000), cost(1600)}, []pipe.Edit{{Path: "cost.installed", Value: "1600"}}), true, 3, chance.PaysBack},
		"by a change":          {costed([2]int{2, 0}, [2]*pipe.Cost{cost(1000), cost(1000)}, deeperChange), false, 0, 0},
		"no costs":             {costed([2]int{2, 0}, [2]*pipe.Cost{nil, cost(1600)}, nil), false, 0, 0},
		"saves nothing":        {costed([2]int{2, 2}, [2]*pipe.Cost{cost(1000), cost(1600)}, nil), true, 0, chance.Never},
		"no dearer and better": {costed([2]int{2, 0}, [2]*pipe.Cost{cost(1000), cost(1000)}, nil), true, 0, chance.AtOnce},
	} {
		p, known := test.c.PayBack(1)
		if known != test.known || p.Years != test.years || p.Worth != test.worth {
			t.Errorf("%s: %+v, %v", name, p, known)
		}
		if _, known := test.c.PayBack(0); known {
			t.Errorf("%s: the first against itself", name)
		}
	}
}

// One winter's failures cost a service call for a line that shut and a flooded basement for a wet floor.
func TestCompareWinterCost(t *testing.T) {
	c := costed([2]int{0, 0}, [2]*pipe.Cost{{ServiceCall: 400, FloodedBasement: 12000}, nil}, nil)
	if _, known := c.WinterCost(0); known {
		t.Error("known for many winters")
	}
	c.Single = []*sim.Result{{Verdict: sim.Verdict{Closed: new(float64), Floor: new(float64)}}, {}}
	if cost, known := c.WinterCost(0); cost != 12400 || !known {
		t.Errorf("%g, %v; want 12400", cost, known)
	}
	if _, known := c.WinterCost(1); known {
		t.Error("known without costs")
	}
	if _, known := c.PayBack(1); known {
		t.Error("years to pay back from one winter")
	}
}

// The least margin is that of the worst winter, for each goal by itself.
func TestLeastMargin(t *testing.T) {
	c := costed([2]int{0, 0}, [2]*pipe.Cost{nil, nil}, nil)
	if _, ok := c.LeastMargin(0); ok {
		t.Error("known without margins")
	}
	for i := range c.Outcomes {
		c.Outcomes[i].Margin = &Margin{Open: Bound{K: float64(i)}, Dry: Bound{K: float64(-i)}}
	}
	if m, ok := c.LeastMargin(1); !ok || m.Open.K != 1 || m.Dry.K != -7 {
		t.Errorf("%+v, %v", m, ok)
	}
}
