package sim

import (
	"math"
	"testing"

	"winterline/pipe"
	"winterline/sim/verify"
	"winterline/weather"
)

var pvc = pipe.Material{Name: "PVC", Conductivity: verify.WallConductivity, Density: verify.WallDensity, HeatCapacity: verify.WallHeatCapacity}
var foam = pipe.Material{Name: "foam", Conductivity: verify.FoamConductivity, Density: verify.FoamDensity, HeatCapacity: verify.FoamHeatCapacity}

func TestRadialRows(t *testing.T) {
	for _, c := range verify.RadialCases() {
		cell := &cell{}
		var ins []pipe.Insulation
		if c.Foam > 0 {
			ins = []pipe.Insulation{{Thickness: c.Foam, Material: foam}}
		}
		size := pipe.Size{OutsideDiameter: c.OutsideDiameter, Wall: c.Wall, Material: pvc}
		liq := pipe.Mixed
		if c.Still {
			liq = pipe.Still
		}
		cell.mesh = pipeMesh(size, ins, liq, nil, 0, Shells{})
		cell.u = make([]float64, cell.mesh.n)
		cell.soil = cell.mesh.n
		cell.bore = size.Bore()
		cell.length = 1
		cell.share = 1
		cell.dt = 1
		cell.mixed = !c.Still
		film := c.Film
		cell.outside = outside{setting: pipe.OpenAir, radius: cell.mesh.edge[cell.mesh.n], film: &film}
		cell.shape(cell.boreArea() * 999.84)
		for i := range cell.u {
			cell.u[i] = c.Start
		}
		end := c.End
		if math.IsNaN(end) {
			end = c.Ice[3] * 1.05
		}
		n := int(end/360) + 2
		s := &weather.Series{Time: make([]float64, n), Air: make([]float64, n)}
		for i := range s.Time {
			s.Time[i] = float64(i) * 360
			s.Air[i] = c.Air(s.Time[i])
		}
		k := newSky(s, 0.4)
		w := newStepper(Stepping{})
		var got [4]float64
		prev := icePoint{}
		for r := 0; r+1 < n; r++ {
			k.row = r
			if err := cell.march(w, k, s.Time[r], math.Min(s.Time[r+1], end+1)); err != nil {
				t.Fatal(err)
			}
			for _, p := range cell.tally.track {
				for j, level := range verify.RadialLevels {
					lv := level * cell.mass
					if got[j] == 0 && p.ice >= lv {
						got[j] = prev.t + (p.t-prev.t)*(lv-prev.ice)/(p.ice-prev.ice)
					}
				}
				prev = p
			}
		}
		t.Logf("%s steps %d rej %d newton %d | first %.2f%% (%.4f h) ice %+.2f%% %+.2f%% %+.2f%% %+.2f%%  end %.4f vs %.4f", c.ID, w.steps, w.rejected, w.newton,
			100*(cell.tally.firstIce/c.FirstIce-1), (cell.tally.firstIce-c.FirstIce)/3600,
			100*(got[0]/c.Ice[0]-1), 100*(got[1]/c.Ice[1]-1), 100*(got[2]/c.Ice[2]-1), 100*(got[3]/c.Ice[3]-1), cell.iceShare(), c.IceAtEnd)
	}
}

func TestLine(t *testing.T) {
	w := newStepper(Stepping{})
	for j, c := range verify.ReferenceLine() {
		size := pipe.Size{OutsideDiameter: c.OutsideDiameter, Wall: c.Wall, Material: pvc}
		cell := &cell{}
		cell.mesh = pipeMesh(size, []pipe.Insulation{{Thickness: c.Foam, Material: foam}}, pipe.Still, nil, 0, Shells{Water: 20, Layer: 7})
		cell.u = make([]float64, cell.mesh.n)
		cell.soil = cell.mesh.n
		cell.bore, cell.length, cell.share, cell.dt = size.Bore(), 1, 1, 20
		film := 15.0
		cell.outside = outside{setting: pipe.OpenAir, radius: cell.mesh.edge[cell.mesh.n], film: &film}
		cell.shape(cell.boreArea() * 999.84)
		for i := range cell.u {
			cell.u[i] = 9
		}
		n := 3601
		s := &weather.Series{Time: make([]float64, n), Air: make([]float64, n)}
		for i := range s.Time {
			s.Time[i] = float64(i) * 3600
			s.Air[i] = -4 + 5*math.Cos(2*math.Pi*(float64(i)-15)/24) + 10*math.Sin(2*math.Pi*float64(i)/120)
		}
		k := newSky(s, 0.4)
		next := 3.37 * 3600
		largest, hours, first := 0.0, 0.0, -1.0
		prev := icePoint{}
		for r := 0; r+1 < n; r++ {
			k.row = r
			tt := s.Time[r]
			for tt < s.Time[r+1]-1e-6 {
				end := math.Min(s.Time[r+1], next)
				if err := cell.march(w, k, tt, end); err != nil {
					t.Fatal(err)
				}
				for q, p := range cell.tally.track {
					p.ice /= cell.mass
					if q == 0 {
						prev = p
						continue
					}
					largest = math.Max(largest, p.ice)
					if p.ice > .01 {
						if prev.ice > .01 {
							hours += (p.t - prev.t) / 3600
						} else {
							x := (p.ice - .01) / (p.ice - prev.ice)
							hours += (p.t - prev.t) / 3600 * x
							if first < 0 {
								first = (p.t - x*(p.t-prev.t)) / 3600
							}
						}
					} else if prev.ice > .01 {
						hours += (p.t - prev.t) / 3600 * (prev.ice - .01) / (prev.ice - p.ice)
					}
					prev = p
				}
				tt = end
				if tt == next {
					for i := range cell.mesh.water {
						cell.u[i] = 9
					}
					next += 12 * 3600
					cell.dt = 20
				}
			}
		}
		t.Logf("%d steps %d rej %d newton %d heat %+.4f%% ice %+.4f hours %+.3f%% %+.2f h first %+.3f", j, w.steps, w.rejected, w.newton, 100*(-cell.tally.heatIn/c.HeatLost-1), largest-c.LargestIce, 100*(hours*3600/c.IceTime-1), hours-c.IceTime/3600, first-c.FirstIce/3600)
	}
}

func TestGroundRows(t *testing.T) {
	for _, g := range verify.GroundCases() {
		soil := pipe.Soil{ConductivityUnfrozen: g.ConductivityUnfrozen, ConductivityFrozen: g.ConductivityFrozen, HeatCapacityUnfrozen: g.CapacityUnfrozen, HeatCapacityFrozen: g.CapacityFrozen, Latent: g.Latent}
		c := newColumn(func(float64) pipe.Soil { return soil }, g.AirMean)
		w := newStepper(Stepping{Longest: 86400})
		ok, err := c.spinUp(w, func(at float64) (float64, float64) {
			return g.SurfaceResistance, g.AirMean - g.AnnualSwing*math.Cos(2*math.Pi*at/86400/365)
		}, -100*86400, 200)
		steps := w.steps
		w.control.Longest = 86400
		if g.DailySwing > 0 {
			w.control.Longest = 3600
		}
		cov := func(at float64) (float64, float64) { return g.SurfaceResistance, g.Air(at) }
		at := -100.0 * 86400
		c.march(w, cov, at, at+secondsYear)
		t.Logf("%s n %d spun %v %v steps %d then %d newton %d", g.ID, c.mesh.n, ok, err, steps, w.steps, w.newton)
		for _, st := range g.States {
			c.march(w, cov, at, st.Time)
			at = st.Time
			var d [5]float64
			for k, z := range verify.GroundDepths {
				d[k] = c.temperatureAt(z) - st.Temperature[k]
			}
			t.Logf("   day %.0f frost %.4f vs %.4f  dT %+.3f", at/86400, c.frost(), st.Frost, d)
		}
	}
}
