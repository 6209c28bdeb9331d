package sim_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

// draw makes random installations and weather. A seed always makes the same ones.
type draw struct {
	*rand.Rand
	text strings.Builder
}

func newDraw(seed uint64) *draw { return &draw{Rand: rand.New(rand.NewPCG(seed, 0x77696e746572))} }

func (d *draw) within(low, high float64) float64 { return low + (high-low)*d.Float64() }

func (d *draw) chance(p float64) bool { return d.Float64() < p }

func (d *draw) one(of ...string) string { return of[d.IntN(len(of))] }

func (d *draw) line(format string, args ...any) { fmt.Fprintf(&d.text, format+"\n", args...) }

// layout writes a random layout.toml. The choices cover every way that water can take:
// glued or with a standpipe, to a lid or to daylight, with sags, weep slot and pocket,
// basin, relief openings, outages.
func (d *draw) layout() string {
	d.text.Reset()
	standpipe, lid, basin := d.chance(0.6), d.chance(0.5), d.chance(0.7)
	buried := d.chance(0.8)
	d.site(basin)
	if basin {
		d.basin()
	} else {
		d.line("[water]\nwater_temperature = \"%.1f degC\"", d.within(2, 12))
	}
	d.house(basin)
	d.yard(buried, lid)
	if standpipe {
		rim := d.within(0.38, 0.5)
		d.line("[standpipe]\nafter = \"stub\"\npipe = %q\nhouse_pipe_end = \"%.3f m\"\nrim = \"%.3f m\"",
			d.one("4 in D3034", "3 in sch 40 PVC", "4 in sch 40 PVC"), rim-d.within(0.02, 0.06), rim)
	}
	d.relief(standpipe)
	if lid {
		d.line("[outlet]\nkind = \"lid\"\nlevel = \"%.3f m\"\nlid_opening_head = \"%.3f m\"", d.within(0, 0.05), d.within(0, 0.05))
		if d.chance(0.6) {
			d.line("weep = \"%.1f mm x %.0f mm\"", d.within(3, 15), d.within(20, 60))
			if d.chance(0.8) {
				d.line("[pocket]\nlength = \"%.2f m\"\nwidth = \"%.2f m\"\ndepth = \"%.2f m\"\nvoid = \"%.0f %%\"",
					d.within(0.3, 1.2), d.within(0.3, 1), d.within(0.3, 0.8), d.within(25, 45))
			}
		}
	} else {
		d.line("[outlet]\nkind = \"open\"")
		if !buried {
			d.line("level = \"%.3f m\"", d.within(-0.3, 0.1))
		}
	}
	return d.text.String()
}

func (d *draw) site(basin bool) {
	d.line("title = \"drawn\"\n[site]")
	d.line("soil = %q", d.one("sand", "sandy loam", "loam", "silt loam", "clay loam", "silty clay", "clay"))
	d.line("ground_mean = \"%.1f degC\"\nground_swing = \"%.1f K\"", d.within(7, 12), d.within(2, 7)) // mild: a frozen spin-up takes seconds
	d.line("surface = %q", d.one("grass", "bare", "gravel", "paved"))
	d.line("wind_exposure = %.2f\nroom_temperature = \"%.0f degC\"", d.within(0.1, 1), d.within(5, 20))
	if d.chance(0.2) {
		d.line("[site.soil_override]\nsaturated_conductivity = \"%.3f mm/h\"", d.within(0.01, 1))
	}
	if basin && d.chance(0.2) {
		from := recordStart.Add(time.Duration(d.within(1, 4)*24) * time.Hour)
		d.line("[[outage]]\nstart = %q\nend = %q", from.Format(stampLayout), from.Add(time.Duration(d.within(2, 40))*time.Hour).Format(stampLayout))
	}
}

func (d *draw) basin() {
	off := d.within(0.08, 0.2)
	d.line("[basin]\nfloor_below_ground = \"%.2f m\"\nbottom_below_floor = \"%.2f m\"\ndiameter = \"%.2f m\"", d.within(1.5, 2.6), d.within(0.5, 0.8), d.within(0.35, 0.6))
	d.line("float_on = \"%.3f m\"\nfloat_off = \"%.3f m\"\ncheck_valve = %t", off+d.within(0.08, 0.25), off, d.chance(0.8))
	if d.chance(0.5) {
		d.line("water_temperature = \"%.1f degC\"", d.within(1, 12))
	}
}

// house writes pump, riser and wall stub.
func (d *draw) house(basin bool) {
	size := d.one("1-1/4 in sch 40 PVC", "1-1/2 in sch 40 PVC", "2 in sch 40 PVC")
	if d.chance(0.7) {
		shut := d.within(5, 12)
		d.line("[[pump]]\nname = \"main\"\ncurve = [[\"0 m\", \"%.0f L/min\"], [\"%.2f m\", \"%.0f L/min\"], [\"%.2f m\", \"0 L/min\"]]",
			d.within(120, 220), shut/2, d.within(40, 110), shut)
	}
	rise := d.within(2, 3.2)
	d.line("[[segment]]\nname = \"riser\"\npipe = %q\nlength = \"%.3f m\"\nrise = \"%.3f m\"\nsetting = \"indoor\"\nfittings = [\"90 elbow\"]", size, rise, rise)
	d.line("[[segment]]\nname = \"stub\"\npipe = %q\nlength = \"%.2f m\"\ndrop = \"%.3f m\"\nsetting = \"through-wall\"", size, d.within(0.3, 1), d.within(0, 0.02))
}

// yard writes one to three segments outside the house.
func (d *draw) yard(buried, lid bool) {
	n := 1 + d.IntN(3)
	for i := range n {
		length := d.within(1, 6)
		size := d.one("1-1/2 in sch 40 PVC", "3 in D2729", "4 in D2729", "4 in D3034", "4 in HDPE corrugated")
		d.line("[[segment]]\nname = \"yard %d\"\npipe = %q\nlength = \"%.2f m\"", i, size, length)
		fall := length * d.within(0, 0.03)
		if d.chance(0.1) {
			d.line("rise = \"%.4f m\"", fall/2)
		} else {
			d.line("drop = \"%.4f m\"", fall)
		}
		if d.chance(0.4) {
			d.line("sag = \"%.4f m\"", d.within(0, 0.06))
		}
		switch {
		case buried:
			d.line("setting = \"buried\"")
			if i == 0 {
				d.line("cover = \"%.3f m\"", d.within(0.1, 0.6))
			}
		case lid && i == n-1:
			d.line("setting = \"buried\"\ncover = \"%.3f m\"", d.within(0.05, 0.3))
		default:
			d.line("setting = %q", d.one("open-air", "open-air", "sheltered"))
		}
		if d.chance(0.3) {
			d.line("insulation = [{ thickness = \"%.0f mm\", material = \"closed-cell foam\" }]", d.within(9, 50))
		}
		if d.chance(0.2) {
			d.line("liquid = \"still\"")
		}
		if d.chance(0.1) {
			d.line("nucleation = \"%.1f degC\"", -d.within(1, 6))
		}
		if d.chance(0.1) {
			d.line("standing = \"%.0f %%\"", d.within(5, 100))
		}
	}
}

func (d *draw) relief(standpipe bool) {
	at := "yard 0"
	if standpipe {
		at = "standpipe"
	}
	for d.chance(0.6) {
		d.line("[[relief]]\nat = %q\nheight = \"%.3f m\"\nwidth = \"%.0f mm\"\nopening_height = \"%.0f mm\"\nfaces_house = %t\nsnow_factor = %.2f",
			at, d.within(0.05, 0.3), d.within(20, 100), d.within(10, 60), d.chance(0.3), d.within(0, 1.5))
	}
}

var recordStart = time.Date(2026, 1, 10, 0, 0, 0, 0, time.UTC)

const stampLayout = "2006-01-02 15:04"

// weather draws a record of some days: a level that wanders, a daily swing, now and then
// a plunge or a thaw; what else is recorded is drawn too.
func (d *draw) weather(days float64) *weather.Series {
	s := &weather.Series{Source: "drawn", Start: recordStart}
	step := []float64{1800, 3600, 3600, 3 * 3600}[d.IntN(4)]
	level, swing := d.within(-15, 5), d.within(0, 8)
	wind, dew, cloud, snow := d.chance(0.7), d.chance(0.5), d.chance(0.5), d.chance(0.6)
	depth := d.within(0, 0.4)
	for t := 0.0; t <= days*86400; t += step {
		level += d.NormFloat64() * math.Sqrt(step/3600) * 0.8
		if d.chance(step / 86400 / 4) {
			level += d.within(-18, 14)
		}
		level = math.Max(-35, math.Min(12, level))
		s.Time = append(s.Time, t)
		air := level - swing*math.Cos(2*math.Pi*(t/3600-4)/24)
		s.Air = append(s.Air, air)
		if wind {
			s.Wind = append(s.Wind, math.Max(0, d.within(-2, 12)))
		}
		if dew {
			s.DewPoint = append(s.DewPoint, air-d.within(0, 8))
		}
		if cloud {
			s.Cloud = append(s.Cloud, d.Float64())
		}
		if snow {
			if d.chance(0.02) {
				depth += d.within(0, 0.3)
			}
			depth = math.Max(0, depth-d.within(-0.001, 0.003)*math.Max(0, air+3))
			s.SnowDepth = append(s.SnowDepth, depth)
		}
	}
	return s
}

// supply draws pump cycles, inflow, or neither.
func (d *draw) supply(l *pipe.Layout, s *weather.Series) sim.Supply {
	w := sim.Supply{Given: true}
	if l.Basin != nil && d.chance(0.3) {
		for t := 0.0; t < s.End(); t += d.within(6, 60) * 3600 {
			w.Inflow = append(w.Inflow, pipe.InflowRow{Time: s.Stamp(t), Inflow: d.within(0, 60) / 3.6e6}) // 0 to 60 L/h
		}
		w.Given = false
		return w
	}
	pause := math.Exp(d.within(math.Log(300), math.Log(3*86400)))
	for t := pause * d.Float64(); t < s.End() && len(w.Cycles) < 80; t += pause * d.within(0.2, 2) {
		c := pipe.Cycle{Start: s.Stamp(math.Round(t)), Run: d.within(5, 120)}
		if d.chance(0.1) {
			c.Run = d.within(600, 7200)
		}
		if d.chance(0.3) {
			c.Flow = d.within(20, 200) / 6e4
		}
		w.Cycles = append(w.Cycles, c)
	}
	return w
}

// drawCase makes the case of a seed; nil where the draw is no layout that stands.
func drawCase(t testing.TB, seed uint64) *sim.Case {
	d := newDraw(seed)
	text := d.layout()
	l, problems := pipe.ReadLayout("layout.toml", []byte(text))
	if len(problems) > 0 {
		return refused(t, seed, problems)
	}
	more := newDraw(seed + 1<<40) // apart, so that older seeds stay what they were
	l.Site.ReturnShare, l.Site.ReturnDelay = more.Float64(), more.within(0, 24*3600)
	profile, problems := l.MakeProfile("layout.toml")
	if len(problems) > 0 {
		return refused(t, seed, problems)
	}
	s := d.weather(d.within(2, 8))
	if more.chance(0.4) {
		l.ExtraInflows = []pipe.ExtraInflow{{Kind: "roof", Area: more.within(10, 90), Segment: len(l.Segments) - 1}}
		for range s.Time {
			s.Rain = append(s.Rain, math.Max(0, more.within(-0.03, 0.006)))
		}
	}
	if l.Basin != nil && more.chance(0.3) {
		curve, _ := pipe.TypicalCurve("1/4 hp")
		l.Pumps = append(l.Pumps, pipe.Pump{Name: "second", Role: pipe.BackupPump, Curve: curve,
			Start: l.Basin.FloatOn + more.within(0, 0.1), OwnLine: more.chance(0.5)})
	}
	ice := newDraw(seed + 2<<40)
	l.Outlet.SpreadArea = math.Exp(ice.within(math.Log(0.05), math.Log(10)))
	for i := range l.Reliefs {
		l.Reliefs[i].SpreadArea = math.Exp(ice.within(math.Log(0.05), math.Log(10)))
	}
	k, err := sim.NewCase(fmt.Sprintf("seed %d", seed), l, profile, s, d.supply(l, s))
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	return k
}

func refused(t testing.TB, seed uint64, err error) *sim.Case {
	t.Logf("seed %d draws a layout that is refused: %v", seed, err)
	return nil
}
