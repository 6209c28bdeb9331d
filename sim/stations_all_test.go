package sim_test

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"testing"
	"text/tabwriter"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/sim/verify"
	"winterline/weather"
)

// stationRun is the ground at one station, computed from a record by the defaults of its
// texture and cover: nothing is fitted to a station.
type stationRun struct {
	name     string
	site     string // what its layout says of the site
	series   *weather.Series
	from, to time.Time // of the readings; zero: all
	settings sim.GroundSettings
	like     *stationRun   // the same run, only its readings are others
	sensors  []*plotSensor // daily means; nil: the record's own columns at their stamps
	limit    stationLimit

	result       *sim.GroundResult
	thermometers []*thermometer
}

// stationLimit is what must hold, for thermometers of the depths given.
type stationLimit struct {
	depths []float64 // [m]
	rmse   float64   // at each depth [K]; 0: shown only
	bias   float64   // at each depth, either way [K]; 0: any
	better float64   // of the station's RMSE than that of the lagged air [-]; 0: any
}

// TestStations is the validation of the ground column against measured soil temperatures,
// November to March. Run it with -v to see the tables.
func TestStations(t *testing.T) {
	runs := stationRuns(t)
	var all sync.WaitGroup
	errs := make([]error, len(runs))
	for i, r := range runs {
		if r.like == nil {
			all.Go(func() { errs[i] = r.run() })
		}
	}
	all.Wait()
	var table strings.Builder
	for i, r := range runs {
		if errs[i] != nil {
			t.Fatalf("%s: %v", r.name, errs[i])
		}
		if r.like != nil {
			r.result = r.like.result
		}
		r.compare(t)
		r.print(&table)
	}
	fmt.Fprintln(&table, "\nFrost at Fargo, measured and computed read by one rule:")
	held := &limits{t, map[string]bool{}}
	frost := frostTable(t, held, &table, runs[0].series, runs[0].result, []int{2015, 2016, 2017, 2018})
	fmt.Fprintln(&table, "\nWhat the Drummondville plots differ by among themselves, root mean square over common days:")
	plotSpread(&table, runs)
	fmt.Fprintf(&table, "Mean RMSE over the Drummondville plots and winters: %.3f K\n", plotsTogether(runs))
	t.Log("\n" + table.String() + totals(runs))
	for _, r := range runs {
		r.judge(held)
	}
	held.atMost("Drummondville plots and winters, mean RMSE [K]", plotsTogether(runs), plotsLimit)
	held.done()
	sameMisfits(t, runs[0])
	var rows []verify.MeasuredRow
	for _, r := range runs {
		rows = append(rows, r.rows()...)
	}
	sameMeasured(t, slices.Concat(rows, []verify.MeasuredRow{plotsRow(plotsTogether(runs), plotsLimit)}, frost))
}

// plotsLimit is what the plots' misfit may be on the mean [K].
const plotsLimit = 1.5

// sameMisfits holds what the ground's own result says of measured columns to the misfits
// worked out here, for a run whose readings all count.
func sameMisfits(t *testing.T, r *stationRun) {
	t.Helper()
	for _, th := range r.thermometers {
		for _, m := range r.result.Measured {
			if m.Depth != th.depth {
				continue
			}
			for i, winter := range th.winters() {
				want := sim.WinterMisfit{Winter: winter, Misfit: sim.Misfit(misfitOf(th.of(winter)))}
				got := m.Winters[i]
				if got.Winter != winter || got.N != want.N || math.Abs(got.Bias-want.Bias) > 1e-9 || math.Abs(got.RMSE-want.RMSE) > 1e-9 {
					t.Errorf("%s, %g cm: the result says %+v, expected %+v", r.name, 100*m.Depth, got, want)
				}
			}
		}
	}
}

// stationRuns are all stations. What a record does not tell is assumed beforehand: soils of the
// region where no texture is stated, grass on prairie and plots, bare ground for a cropped
// field in the cold season.
func stationRuns(t *testing.T) []*stationRun {
	fargo, badLake, bondville, drummondville := readFargo(t), readBadLake(t), readBondville(t), readDrummondville(t)
	const clayLoam, siltLoam = "soil = \"clay loam\"\nsurface = \"grass\"", "soil = \"silt loam\"\nsurface = \"bare\""
	fargoRun := &stationRun{name: "Fargo below 5 cm", site: "soil = \"clay\"", series: fargo,
		settings: sim.GroundSettings{SurfaceFrom: &fargo.Soil[0]},
		limit:    stationLimit{depths: []float64{.20, .50, 1.00}, rmse: 0.8}}
	bondvilleRun := &stationRun{name: "Bondville", site: siltLoam, series: bondville, to: bondvilleMoved,
		limit: stationLimit{depths: bondvilleDepths[3:], rmse: 1.5, bias: 1.0, better: 0.25}}
	badLakeRun := &stationRun{name: "Bad Lake", site: clayLoam, series: badLake, settings: sim.GroundSettings{Depths: badLakeHeader},
		limit: stationLimit{depths: badLakeDepths[2:], rmse: 2.0, bias: 1.5, better: 0.25}}
	runs := []*stationRun{
		fargoRun, bondvilleRun,
		{name: "Bondville, thermometers moved", like: bondvilleRun, site: siltLoam, series: bondville, from: bondvilleMoved,
			limit: stationLimit{depths: bondvilleDepths[3:]}},
		{name: "Bondville as grass", site: strings.Replace(siltLoam, "bare", "grass", 1), series: bondville, to: bondvilleMoved,
			limit: stationLimit{depths: bondvilleDepths[3:]}},
		badLakeRun,
		{name: "Bad Lake, depths of the file's header", like: badLakeRun, site: clayLoam, series: withDepths(badLake, badLakeHeader),
			limit: stationLimit{depths: badLakeHeader[3:]}},
		{name: "Bad Lake without snow", site: clayLoam, series: withoutSnow(badLake), limit: stationLimit{depths: badLakeDepths[2:]}},
	}
	return append(runs, plotRuns(t, drummondville)...)
}

// run computes the ground.
func (r *stationRun) run() error {
	l, problems := pipe.ReadLayout(r.name, []byte("title = \"station\"\n[site]\n"+r.site+stationLine))
	if len(problems) > 0 {
		return problems
	}
	p, problems := l.MakeProfile(r.name)
	if len(problems) > 0 {
		return problems
	}
	var err error
	r.result, err = sim.SimulateGround(context.Background(), &sim.GroundCase{Name: r.name, Layout: l, Profile: p, Weather: r.series}, r.settings)
	return err
}

// stationLine is a line that a layout must have and that the undisturbed ground does not notice.
const stationLine = `
[[segment]]
name = "line"
pipe = "4 in D3034"
length = "5 m"
slope = "1/8 in/ft"
setting = "buried"
cover = "12 in"
[outlet]
kind = "open"
`

// compare pairs measured with computed temperatures and finds the best lagged air.
func (r *stationRun) compare(t *testing.T) {
	s := r.series
	for _, p := range r.sensors {
		r.thermometers = append(r.thermometers, p.against(s, groundTrack(t, r.result, drummondvilleDepth)))
	}
	for _, m := range s.Soil {
		if r.settings.SurfaceFrom != nil && m.Depth <= r.settings.SurfaceFrom.Depth {
			continue
		}
		th := &thermometer{depth: m.Depth}
		computed := groundTrack(t, r.result, m.Depth)
		for i, v := range m.Temp {
			if at := s.Stamp(s.Time[i]); !at.Before(r.from) && (r.to.IsZero() || at.Before(r.to)) {
				th.add(s.Time[i], at, v, computed[i])
			}
		}
		r.thermometers = append(r.thermometers, th)
	}
	air := newSmoothedAir(s)
	for _, th := range r.thermometers {
		th.air = air
		th.base, _ = air.bestLag(th.readings)
	}
}

// judged are the thermometers that the limits hold for.
func (r *stationRun) judged() []*thermometer {
	var some []*thermometer
	for _, th := range r.thermometers {
		if slices.Contains(r.limit.depths, th.depth) {
			some = append(some, th)
		}
	}
	return some
}

// total is the misfit over the depths that count, and the lagged air's.
func (r *stationRun) total() (m, base misfit) {
	var ms, bases []misfit
	for _, th := range r.judged() {
		ms, bases = append(ms, misfitOf(th.readings)), append(bases, th.air.misfit(th.base, th.readings))
	}
	return pooled(ms), pooled(bases)
}

// print writes a station's table: every winter and all of them, by depth.
func (r *stationRun) print(b *strings.Builder) {
	fmt.Fprintf(b, "\n%s: %s; November to March, computed less measured\n", r.name, strings.ReplaceAll(r.site, "\n", ", "))
	w := tabwriter.NewWriter(b, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "depth cm\twinter\tn\tbias K\tRMSE K\tlagged air RMSE K\tbetter by\twindow h\tlag h\t")
	for _, th := range r.thermometers {
		for _, winter := range th.winters() {
			th.row(w, fmt.Sprint(winter), th.of(winter))
		}
		th.row(w, "all", th.readings)
	}
	w.Flush()
}

func (th *thermometer) row(w *tabwriter.Writer, winter string, readings []reading) {
	m, base := misfitOf(readings), th.air.misfit(th.base, readings)
	fmt.Fprintf(w, "%s %.1f\t%s\t%d\t%+.2f\t%.2f\t%.2f\t%.0f %%\t%d\t%d\t\n", th.name, 100*th.depth, winter, m.N, m.Bias, m.RMSE, base.RMSE,
		100*(1-m.RMSE/base.RMSE), th.base.window, th.base.lag)
}

// totals lists the stations over the depths that count, the poorest first.
func totals(runs []*stationRun) string {
	sorted := slices.Clone(runs)
	slices.SortStableFunc(sorted, func(a, b *stationRun) int {
		left, _ := a.total()
		right, _ := b.total()
		return cmp.Compare(right.RMSE, left.RMSE)
	})
	var b strings.Builder
	fmt.Fprintln(&b, "\nAll winters and the depths that count together, the poorest first:")
	w := tabwriter.NewWriter(&b, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(w, "station\tdepths cm\tn\tbias K\tRMSE K\tlagged air RMSE K\tbetter by\t")
	for _, r := range sorted {
		m, base := r.total()
		var depths []string
		for _, d := range r.limit.depths {
			depths = append(depths, fmt.Sprintf("%g", 100*d))
		}
		fmt.Fprintf(w, "%s\t%s\t%d\t%+.2f\t%.2f\t%.2f\t%.0f %%\t\n", r.name, strings.Join(depths, " "), m.N, m.Bias, m.RMSE, base.RMSE, 100*(1-m.RMSE/base.RMSE))
	}
	w.Flush()
	return b.String()
}

// judge holds a station to its limits.
func (r *stationRun) judge(held *limits) {
	for _, th := range r.judged() {
		m, where := misfitOf(th.readings), strings.TrimSpace(fmt.Sprintf("%s, %g cm %s", r.name, 100*th.depth, th.name))
		if r.limit.rmse > 0 {
			held.atMost(where+", RMSE [K]", m.RMSE, r.limit.rmse)
		}
		if r.limit.bias > 0 {
			held.atMost(where+", bias [K]", m.Bias, r.limit.bias)
		}
	}
	m, base := r.total()
	if r.limit.better > 0 {
		held.atMost(r.name+", RMSE over that of the best lagged air [-]", m.RMSE/base.RMSE, 1-r.limit.better)
	}
}
