package pipe

import (
	"math"
	"strings"
	"testing"
)

// TestSizes holds the published dimensions: ASTM D1785 schedule 40 in inches and, from its metric
// table (1988), minimum walls in mm; ASTM D2729 and D3034.
func TestSizes(t *testing.T) {
	for _, c := range []struct {
		name          string
		od, wall, tol float64 // [in]
	}{
		{"1-1/4 in sch 40 PVC", 1.660, 0.140, 1e-9}, {"1-1/2 in sch 40 PVC", 1.900, 0.145, 1e-9}, {"2 in sch 40 PVC", 2.375, 0.154, 1e-9},
		{"3 in sch 40 PVC", 3.500, 5.49 / 25.4, 0.02 / 25.4}, {"4 in sch 40 PVC", 4.500, 0.237, 1e-9},
		{"1-1/2 in sch 40 PVC", 1.900, 3.68 / 25.4, 0.02 / 25.4}, {"4 in sch 40 PVC", 4.5, 6.02 / 25.4, 0.02 / 25.4},
		{"4 in D3034", 4.215, 0.120, 1e-9}, {"4 in D2729", 4.215, 0.075, 1e-9}, {"3 in D2729", 3.250, (3.25 - 3.11) / 2, 1e-9},
	} {
		s, ok := FindSize(c.name)
		if !ok || math.Abs(s.OutsideDiameter/0.0254-c.od) > 1e-9 || math.Abs(s.Wall/0.0254-c.wall) > c.tol {
			t.Errorf("%s: OD %g in, wall %g in; want %g and %g", c.name, s.OutsideDiameter/0.0254, s.Wall/0.0254, c.od, c.wall)
		}
	}
	// Water in a metre of schedule 40 pipe with the minimum wall [L].
	for name, want := range map[string]float64{"1-1/4 in sch 40 PVC": 0.964974, "1-1/2 in sch 40 PVC": 1.31344, "2 in sch 40 PVC": 2.1649021, "3 in sch 40 PVC": 4.76945, "4 in sch 40 PVC": 8.21306} {
		s, _ := FindSize(name)
		if got := math.Pi / 4 * s.Bore() * s.Bore() * 1000; math.Abs(got/want-1) > 1e-4 {
			t.Errorf("%s holds %g L/m, want %g", name, got, want)
		}
	}
}

func TestSizeSpellings(t *testing.T) {
	for want, spellings := range map[string][]string{
		"1-1/2 in sch 40 PVC":  {"1-1/2 in sch 40 PVC", "1 1/2 in schedule 40 pvc", "1.5 in Sch40 PVC", `1-1/2" sch 40`, "1½ in PVC sch 40", "1-1/2 inch PVC Schedule 40 pipe", "1-1/2 in D1785"},
		"4 in D3034":           {"4 in D3034", "4 in SDR 35", "4in sdr35", "4 inch PVC SDR-35", "4 in ASTM D3034 SDR 35", `4" d3034`},
		"3 in D2729":           {"3 in D2729", "3 in sewer and drain", "3 in PVC D-2729"},
		"4 in HDPE corrugated": {"4 in HDPE corrugated", "4 in corrugated", "4 in corrugated HDPE", "4 in PE corrugated pipe", "4 in corrugated drain pipe"},
	} {
		reference, ok := FindSize(want)
		if !ok {
			t.Fatalf("%q not found", want)
		}
		for _, s := range spellings {
			got, ok := FindSize(s)
			if got.Name = reference.Name; !ok || got != reference {
				t.Errorf("%q is not taken as %q", s, want)
			}
		}
	}
	for _, bad := range []string{"", "PVC", "5 in sch 40 PVC", "4 in", "4 in sch 80", "1-1/2 in D3034", "in sch 40", "4 m D3034"} {
		if s, ok := FindSize(bad); ok {
			t.Errorf("%q is taken as %+v", bad, s)
		}
	}
}

func TestTablesAreComplete(t *testing.T) {
	for _, name := range sizeNames() {
		s, ok := FindSize(name)
		if !ok || s.Bore() <= 0 || s.Material.Conductivity <= 0 || s.Material.HeatCapacity <= 0 || s.Roughness <= 0 || s.Manning <= 0 || s.Source == "" {
			t.Errorf("%s: %+v", name, s)
		}
		if corrugated := strings.Contains(name, "corrugated"); corrugated != (s.ValleyShare > 0) || s.ValleyShare > 0.2 {
			t.Errorf("%s has a valley share of %g", name, s.ValleyShare)
		}
	}
	for _, name := range materialNames() {
		m, ok := FindMaterial(strings.ToUpper(name))
		if !ok || m.Source == "" || !conductivityLimit.holds(m.Conductivity) || !densityLimit.holds(m.Density) || !capacityLimit.holds(m.HeatCapacity) {
			t.Errorf("%s: %+v", name, m)
		}
	}
	for _, f := range fittingLosses {
		if k, ok := fittingLoss(f.name); !ok || k != f.k {
			t.Errorf("%s: %g, %v", f.name, k, ok)
		}
	}
}

// TestMaterials compares with published tables: Engineering ToolBox thermoplastics, CIBSE Guide A table
// 3.36, TIASA Thermal Insulation Handbook 2001, each within the spread that its table implies.
func TestMaterials(t *testing.T) {
	for _, c := range []struct {
		name                string
		k, rho, cp          float64
		kTol, rhoTol, cpTol float64 // relative
	}{
		{"PVC", 0.16, 1380, 1000, 1e-9, 1e-9, 1e-9},
		{"PVC", 0.1587, 1400, 1046.7, 0.10, 0.03, 0.10},
		{"ABS", 0.1947, 1080, 1423.5, 0.01, 0.001, 0.001},
		{"HDPE", 0.4615, 950, 2302.7, 0.01, 0.001, 0.01},
		{"polyethylene foam", 0.040, 30, 2300, 0.015, 1e-9, 0.2},
		{"EPS", 0.033, 25, 1450, 0.02, 1e-9, 0.1},
		{"XPS", 0.028, 32, 1450, 0.02, 1e-9, 0.1},
		{"closed-cell foam", (0.033 + 0.037) / 2, 60, 1350, 0.02, 1e-9, 0.2},
	} {
		m, _ := FindMaterial(c.name)
		if math.Abs(m.Conductivity/c.k-1) > c.kTol || math.Abs(m.Density/c.rho-1) > c.rhoTol || math.Abs(m.HeatCapacity/c.cp-1) > c.cpTol {
			t.Errorf("%s: %g W/m K, %g kg/m³, %g J/kg K; want %g, %g, %g", c.name, m.Conductivity, m.Density, m.HeatCapacity, c.k, c.rho, c.cp)
		}
	}
}

// TestTypicalCurve holds the points that name a pump: 40 gal/min at 10 ft and no flow at 20 ft for 1/3 hp,
// and so, by the parabola through them, 57 gal/min at no head.
func TestTypicalCurve(t *testing.T) {
	curve, ok := TypicalCurve("1/3 HP")
	if !ok {
		t.Fatal("no curve")
	}
	const gpm, foot = 6.30902e-5, 0.3048
	last := curve[len(curve)-1]
	if math.Abs(curve[0].Flow/gpm-57) > 0.5 || curve[0].Head != 0 || last.Flow != 0 || math.Abs(last.Head-20*foot) > 1e-9 {
		t.Errorf("ends %+v and %+v", curve[0], last)
	}
	if got := curveFlow(curve, 10*foot) / gpm; math.Abs(got-40) > 0.2 {
		t.Errorf("%.2f gal/min at 10 ft, want 40", got)
	}
	for _, name := range powerNames() {
		curve, _ := TypicalCurve(name)
		for i := 1; i < len(curve); i++ {
			if curve[i].Head <= curve[i-1].Head || curve[i].Flow >= curve[i-1].Flow {
				t.Errorf("%s does not fall at point %d", name, i)
			}
		}
	}
}
