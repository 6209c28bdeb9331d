package sim_test

import (
	"fmt"
	"math"
	"testing"
	"time"

	"winterline/pipe"
	"winterline/sim"
	"winterline/weather"
)

func within(t *testing.T, what string, got, want, limit float64) {
	t.Helper()
	if math.Abs(got-want) > limit {
		t.Errorf("%s: %g; want %g to %g", what, got, want, limit)
	}
}

// By hand: water of 0 °C in air and sky of −15 °C, wind of 2 m/s at 2 m. Long-wave 0.97·5.670374e−8·(273.15⁴ −
// 258.15⁴) = 61.92 W/m². Convection over roughness 1 mm: ln(2000)·ln(20000)/(0.41²·2) = 223.9 s/m; the Richardson number
// is −0.285, so the exchange is at its bound of 3 times that; air of 1.3670 kg/m³ and 1013 J/(kg K) gives 3·1384.8/223.9 =
// 18.55, with 1 in calm 19.55 W/(m² K), times 15 K 293.3. In all 355.2 W/m²: on 2 m² 355.2·2·1800/333427 = 3.835 kg in
// half an hour. Of 20 kg let go 5 kg stay (2.5 mm on 2 m²).
func TestMoundFreezesAtTheRateOfTheAir(t *testing.T) {
	m := sim.NewGroundMound(2, -15, 2)
	m.Take(20, 0)
	within(t, "kept [kg]", m.Held(), 5, 0.001)
	m.March(1800)
	within(t, "frozen in half an hour [kg]", m.Ice(), 3.835, 0.005)
	m.March(3600)
	within(t, "frozen in an hour and a half [kg]", m.Ice(), m.Held(), 1e-9)
	within(t, "thickness [m]", m.Thickness(), 5.0/916.7/2, 1e-5)
}

// By hand: 10 kg of 8 °C melt 10·4219·8/333427 = 1.012 kg of the ice; of the 11.012 kg of water then there 5 stay. Before, 5 kg
// had come six times and frozen, 4999.2 g each at the density of 0 °C.
func TestWarmWaterMeltsTheMoundFirst(t *testing.T) {
	m := sim.NewGroundMound(2, -15, 2)
	for range 6 {
		m.Take(50, 0)
		m.March(4 * 3600)
	}
	within(t, "ice before [kg]", m.Ice(), 30, 0.01)
	ran := m.RanOff()
	m.Take(10, 8)
	within(t, "ice [kg]", m.Ice(), 28.988, 0.01)
	within(t, "ran off [kg]", m.RanOff()-ran, 6.012, 0.01)
}

// By hand: on bare frozen ground 4 kg of 8 °C hold 135 kJ. The surface gives up 355.2 W/m² at 0 °C and some 29 W/(m² K) more for each
// kelvin above, so 2 m² take between 135 kJ/(2·(355 + 8·29) W) = 115 s and 190 s to bring the water to 0 °C; in 60 s
// nothing freezes, and in 600 s what the 410 to 485 s left freeze: 0.87 to 1.04 kg.
func TestWarmWaterOnFrozenGroundCoolsFirst(t *testing.T) {
	m := sim.NewGroundMound(2, -15, 2)
	m.Take(4, 8)
	m.March(60)
	within(t, "ice after a minute [kg]", m.Ice(), 0, 0)
	m.March(540)
	within(t, "ice after ten minutes [kg]", m.Ice(), 0.955, 0.09)
}

// By hand: 3.5 mm of water a day for each kelvin over 0 °C (Kuusisto 1980), so in air of 4 °C 2 m² melt 28 kg a day; less comes
// from air and overcast sky alone. What melts beyond 5 kg has run off, and when the ice is gone all has.
func TestMoundMeltsByTheDegreeDays(t *testing.T) {
	m := sim.NewGroundMound(2, -15, 2)
	for range 12 {
		m.Take(50, 0)
		m.March(4 * 3600)
	}
	ice := m.Ice()
	m.Air = 4
	m.March(86400)
	within(t, "melted in a day [kg]", ice-m.Ice(), 28, 0.02)
	within(t, "held [kg]", m.Held(), m.Ice()+5, 0.01)
	m.March(2 * 86400)
	within(t, "held after three days [kg]", m.Held(), 0, 0)
}

// The model's figure: 100 L a day at −15 °C in hourly lots of 8 °C buries a lid of 1 in on 2 m² (25.4 mm·2 m²·916.7 kg/m³ =
// 46.6 kg, 11.2 lots) in half a day, and a relief opening at 10 in (466 kg, 111.8 lots) in 4.7 days.
func TestHundredLitresADayBuryLidAndRelief(t *testing.T) {
	m := sim.NewGroundMound(2, -15, 2)
	lid, relief := 0, 0
	for hour := 1; hour <= 200 && relief == 0; hour++ {
		m.Take(100.0/24, 8)
		m.March(3600)
		if m.Thickness() > 0.0254 && lid == 0 {
			lid = hour
		}
		if m.Thickness() > 0.254 {
			relief = hour
		}
	}
	if lid != 12 || relief != 112 {
		t.Errorf("lid after %d h, relief after %d h; want 12 and 112", lid, relief)
	}
}

// Ground that is not frozen keeps no water.
func TestNoMoundOnWarmGround(t *testing.T) {
	m := sim.NewGroundMound(2, 5, 2)
	m.Take(40, 8)
	m.March(3600)
	if m.Held() != 0 || m.RanOff() != 40 {
		t.Errorf("%g kg held, %g ran off", m.Held(), m.RanOff())
	}
}

// moundHouse is a standpipe with a relief opening 4 in up and an insulated line above ground that drains to its end; the end
// lies on the ground. All its pipes are kept from freezing by films of next to nothing.
const moundHouse = `title = "mound"
[site]
room_temperature = "%[1]g degC"
[water]
water_temperature = "%[1]g degC"
[[segment]]
name = "riser"
pipe = "1-1/2 in sch 40 PVC"
length = "3 m"
rise = "0.1 m"
setting = "indoor"
[[segment]]
name = "stub"
pipe = "1-1/2 in sch 40 PVC"
length = "0.3 m"
drop = "0.01 m"
setting = "through-wall"
[[segment]]
name = "run"
pipe = "1-1/2 in sch 40 PVC"
length = "3 m"
drop = "0.09 m"
setting = "open-air"
film_coefficient = "0.01 W/m2/K"
[standpipe]
after = "stub"
pipe = "4 in D3034"
house_pipe_end = "11 in"
rim = "10 in"
[[relief]]
at = "standpipe"
height = "4 in"
width = "3 in"
opening_height = "2 in"
faces_house = false
spread_area = "%[2]g m2"
[outlet]
spread_area = "%[3]g m2"
kind = %[4]s
`

// moundRun is that house in air of −15 °C and cloud for some days, then of 8 °C, with 100 L a day in hourly lots.
func moundRun(t *testing.T, end string, area, relief float64, cold, warm int) *sim.Result {
	t.Helper()
	return moundRunAt(t, 4, end, area, relief, cold, warm)
}

// moundRunAt is the same with water of a temperature [°C].
func moundRunAt(t *testing.T, water float64, end string, area, relief float64, cold, warm int) *sim.Result {
	t.Helper()
	s := &weather.Series{Start: time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC)}
	w := sim.Supply{Given: true}
	for i := range (cold+warm)*24 + 1 {
		air := -15.0
		if i >= cold*24 {
			air = 8
		}
		s.Time, s.Air, s.Cloud = append(s.Time, float64(i)*3600), append(s.Air, air), append(s.Cloud, 1)
		w.Cycles = append(w.Cycles, pipe.Cycle{Start: s.Stamp(float64(i) * 3600), Run: 50, Flow: 5.0 / 60000})
	}
	k := caseOf(t, fmt.Sprintf(moundHouse, water, relief, area, end), s, w)
	r := resultOf(t, k)
	sane(t, k, r)
	return r
}

// firsts are the first events of some kinds, in order of time.
func firsts(r *sim.Result, kinds ...sim.EventKind) (order []sim.EventKind, hour map[sim.EventKind]float64) {
	hour = map[sim.EventKind]float64{}
	for _, e := range r.Events {
		for _, k := range kinds {
			if _, seen := hour[k]; e.Kind == k && !seen {
				order, hour[k] = append(order, k), e.Time/3600
			}
		}
	}
	return order, hour
}

// The chain of hard frost and a thaw: the end ices over, the relief takes over, its own ice rises over it, the water goes over the
// rim; in the thaw the line takes it again. By hand: the ground right at the open end keeps a puddle of 2.5 mm of each lot, which
// makes 2.727 mm of ice, less what 4.167 kg, which come out at 3 °C, melt of 0.3 m², 0.575 mm: the bore of 1.610 in (40.9 mm) is under ice
// after 19.0 lots. Below the relief 4.167 kg on 2 m² make 2.273 mm: its bottom, 4 in up, is under ice after 44.7 lots, its top, 6 in
// up, after 67.
func TestWaterLetGoShutsEndAndRelief(t *testing.T) {
	r := moundRun(t, `"open"`, 2, 2, 5, 6)
	order, hour := firsts(r, sim.EventLidFrozen, sim.EventReliefRunning, sim.EventReliefIced, sim.EventRimSpill, sim.EventReopened, sim.EventReliefStopped)
	if want := "[lid-frozen relief-running relief-iced rim-spill reopened relief-stopped]"; fmt.Sprint(order) != want {
		t.Errorf("events %v; want %s", order, want)
	}
	within(t, "end under ice [h]", hour[sim.EventLidFrozen], 19.0, 1)
	within(t, "relief's bottom under ice [h]", hour[sim.EventReliefIced]-hour[sim.EventReliefRunning], 44.7, 1)
	within(t, "over the rim [h]", hour[sim.EventRimSpill]-hour[sim.EventReliefRunning], 67, 1)
	v := r.Verdict
	if v.State != sim.Spilled || !v.ClosedByMound || v.Closed == nil || math.Abs(*v.Closed/3600-hour[sim.EventLidFrozen]) > 1e-9 {
		t.Errorf("%+v; want a line that ice on the ground shut", v)
	}
	if v.Reopened == nil || math.Abs(v.ShutFor-(*v.Reopened-*v.Closed)) > 1 {
		t.Errorf("shut for %g s, closed %v, reopened %v", v.ShutFor, v.Closed, v.Reopened)
	}
}

// A wider spread makes thinner ice: on 2 m² the relief's water ices its opening in two days, on 10 m² it would take nine.
func TestSpreadAreaDecides(t *testing.T) {
	_, hour := firsts(moundRun(t, `"open"`, 2, 10, 4, 0), sim.EventReliefRunning, sim.EventReliefIced)
	if hour[sim.EventReliefRunning] == 0 || hour[sim.EventReliefIced] != 0 {
		t.Errorf("relief ran from hour %g, iced at hour %g; want never iced", hour[sim.EventReliefRunning], hour[sim.EventReliefIced])
	}
}

// Warm water keeps its hole: 4.167 kg at 7 °C melt 1.342 mm of each lot's 2.727 mm, at 3 °C 0.575 mm, so that the end stays
// clear 1.55 times as long.
func TestWarmWaterKeepsTheEndOpenLonger(t *testing.T) {
	const end = `"open"`
	_, cold := firsts(moundRun(t, end, 2, 2, 2, 0), sim.EventLidFrozen)
	_, warm := firsts(moundRunAt(t, 8, end, 2, 2, 2, 0), sim.EventLidFrozen)
	within(t, "8 °C at the pump over 4 °C", warm[sim.EventLidFrozen]/cold[sim.EventLidFrozen], 2.152/1.385, 0.15)
}

// By hand: a lid 1 in over the ground is held after 15.2 lots of 1.672 mm, when they come at 5.5 °C, having stood in the cold riser; one that lies on the ground by the first ice. The
// water then stands up to the relief's bottom at 0.1016 m, and the thaw lets the lid go.
func TestLidUnderIce(t *testing.T) {
	for level, want := range map[string]float64{"1 in": 15.2, "0 in": 0.5} {
		r := moundRunAt(t, 8, fmt.Sprintf("\"lid\"\nlevel = %q", level), 2, 2, 2, 4)
		order, hour := firsts(r, sim.EventLidFrozen, sim.EventReliefRunning, sim.EventReopened)
		if got := fmt.Sprint(order); got != "[lid-frozen relief-running reopened]" {
			t.Errorf("lid at %s: events %v", level, got)
			continue
		}
		within(t, "lid at "+level+" held [h]", hour[sim.EventLidFrozen], want, 1)
		within(t, "lid at "+level+": water stands up to [m]", r.Hourly.Standpipe[47], 0.1016, 0.02)
		if v := r.Verdict; v.State != sim.ShutRelieved || !v.ClosedByMound || v.Reopened == nil || hour[sim.EventReopened] < 48 {
			t.Errorf("lid at %s: %+v", level, v)
		}
	}
}

// In mild weather nothing stays on the ground.
func TestNoMoundInMildWeather(t *testing.T) {
	for _, m := range moundRun(t, `"open"`, 2, 2, 0, 3).Mounds {
		if m.Thickest > 0 || m.Hours > 0 || m.Left > 0 {
			t.Errorf("%+v", m)
		}
	}
}
