package pipe

import (
	"math"
	"regexp"
	"slices"
	"strings"

	"winterline/pipe/units"
)

// sizeRow is one nominal pipe. Wall is the standard's minimum, so that the bore OD − 2·wall is the
// largest that the standard allows: average walls are some percent thicker. For corrugated pipe
// the bore is the clear one between the corrugations and the wall their depth.
type sizeRow struct {
	nominal   string // [in]
	series    string
	od, wall  float64 // [in]
	standard  string
	certainty string
}

const (
	sch40      = "sch 40 PVC"
	d2729      = "D2729"
	d3034      = "D3034"
	corrugated = "HDPE corrugated"
)

var sizeRows = []sizeRow{
	{"1-1/4", sch40, 1.660, 0.140, "ASTM D1785 schedule 40", ""},
	{"1-1/2", sch40, 1.900, 0.145, "ASTM D1785 schedule 40", ""},
	{"2", sch40, 2.375, 0.154, "ASTM D1785 schedule 40", ""},
	{"3", sch40, 3.500, 0.216, "ASTM D1785 schedule 40", ""},
	{"4", sch40, 4.500, 0.237, "ASTM D1785 schedule 40", ""},
	{"3", d2729, 3.250, 0.070, "ASTM D2729", ""},
	{"4", d2729, 4.215, 0.075, "ASTM D2729", ""},
	{"3", d3034, 3.250, 0.093, "sold as SDR 35 beside ASTM D3034, which begins at 4 in: OD as D2729, wall OD/35", " (from memory)"},
	{"4", d3034, 4.215, 0.120, "ASTM D3034 SDR 35", ""},
	{"3", corrugated, 3.66, 0.33, "ASTM F667 / F405 single wall, typical product: bore 3 in", " (from memory)"},
	{"4", corrugated, 4.66, 0.33, "ASTM F667 / F405 single wall, typical product: bore 4 in", " (from memory)"},
}

// Bore friction: absolute roughness of drawn plastic 0.0015 mm (handbooks); Manning's n 0.009 for
// smooth plastic (0.009 to 0.011) and 0.016 for 3 to 8 in corrugated polyethylene (0.014 to 0.018,
// NRCS practice, from memory). The corrugated roughness is the one that gives that n,
// k = (21.1 n)^6 (Strickler 1923, from memory).
const (
	smoothRoughness     = 1.5e-6 // [m]
	smoothManning       = 0.009
	corrugatedManning   = 0.016
	corrugatedRoughness = 1.5e-3 // [m]
)

// corrugatedWall is corrugated polyethylene as one even wall of the corrugation's depth; about a
// quarter of it is plastic, the rest water and soil in the valleys (from memory of 0.4 lb/ft for 4 in).
var corrugatedWall = Material{"HDPE corrugated", 0.46, 240, 2300, "HDPE, a quarter of the annulus solid (from memory)"}

// FindSize looks a nominal pipe up by name, such as "1-1/2 in sch 40 PVC", "4 in D3034",
// "3 in D2729" or "4 in HDPE corrugated". Usual other spellings are taken: schedule 40, D1785,
// SDR 35, sewer and drain, corrugated PE; quotes or "inch" for in.
func FindSize(name string) (Size, bool) {
	nominal, series := splitSize(name)
	for _, r := range sizeRows {
		if r.nominal == nominal && r.series == series {
			return r.size(name), true
		}
	}
	return Size{}, false
}

// sizeNames lists the known pipes as a layout names them.
func sizeNames() []string {
	var names []string
	for _, r := range sizeRows {
		names = append(names, r.nominal+" in "+r.series)
	}
	return names
}

func (r sizeRow) size(name string) Size {
	s := Size{Name: strings.TrimSpace(name), OutsideDiameter: r.od * 254 / 1e4, Wall: r.wall * 254 / 1e4,
		Roughness: smoothRoughness, Manning: smoothManning, Source: r.standard + r.certainty}
	if r.series != corrugated {
		s.Material, _ = FindMaterial("PVC")
		return s
	}
	s.Material, s.Roughness, s.Manning = corrugatedWall, corrugatedRoughness, corrugatedManning
	s.ValleyShare = valleyShare(s)
	return s
}

// valleyShare is the volume of the corrugations' valleys that lies below the bore's invert, over
// the bore volume: the circle segment of the outer diameter up to the invert, for the half of the
// length that is valley. Water there has no way down the grade.
func valleyShare(s Size) float64 {
	return 0.5 * SegmentArea(s.OutsideDiameter, s.Wall) / (math.Pi / 4 * s.Bore() * s.Bore())
}

var (
	sizeHead = regexp.MustCompile(`^([0-9]+(?:[- ][0-9]+/[0-9]+|\.[0-9]+)?)\s*(?:inches|inch|in\.?|"|-in|-inch)?[\s,]+(.*)$`)
	// fillers are words that say nothing which the series does not.
	fillers = []string{"pvc", "pipe", "astm", "hdpe", "pe", "polyethylene", "nominal", "white", "green", "solid", "single", "wall", "-", ","}
)

var seriesNames = map[string]string{
	"sch 40": sch40, "schedule 40": sch40, "sch40": sch40, "sch. 40": sch40, "schedule40": sch40, "sch-40": sch40,
	"d1785": sch40, "sch 40 d1785": sch40, "d1785 sch 40": sch40, "schedule 40 d1785": sch40,
	"d2729": d2729, "sewer and drain": d2729, "sewer & drain": d2729, "s&d": d2729, "sewer and drain d2729": d2729,
	"d3034": d3034, "sdr 35": d3034, "sdr35": d3034, "sdr-35": d3034, "d3034 sdr 35": d3034, "sdr 35 d3034": d3034,
	"d3034 sdr35": d3034, "sdr35 d3034": d3034, "d3034 sdr-35": d3034,
	"corrugated": corrugated, "corrugated drain": corrugated, "corrugated drainage": corrugated,
}

// splitSize parts a pipe's name into its nominal size [in] and its series.
func splitSize(name string) (nominal, series string) {
	low := strings.ToLower(strings.TrimSpace(name))
	low = strings.NewReplacer("½", "-1/2", "¼", "-1/4", "”", `"`, "d-", "d").Replace(low)
	m := sizeHead.FindStringSubmatch(low)
	if m == nil {
		return "", ""
	}
	nominal = strings.Replace(m[1], " ", "-", 1)
	switch nominal {
	case "1.25":
		nominal = "1-1/4"
	case "1.5":
		nominal = "1-1/2"
	}
	var words []string
	for _, w := range strings.Fields(m[2]) {
		if !slices.Contains(fillers, w) {
			words = append(words, strings.Trim(w, ",()"))
		}
	}
	return nominal, seriesNames[strings.Join(words, " ")]
}

// Bounds of a pipe written by hand.
var (
	diameterLimit = limit{0.005, 2, "from 5 mm to 2 m (0.2 in to 6.6 ft)"}
	wallLimit     = limit{0.0001, 0.5, "from 0.1 mm to 0.5 m (0.004 to 20 in)"}
)

// size binds `pipe`, or outside_diameter, wall and material.
func (s *scope) size(f fallback) (Size, bool) {
	n, st := s.get("pipe")
	byHand := s.node.children["outside_diameter"] != nil || s.node.children["wall"] != nil || s.node.children["material"] != nil
	if byHand {
		if st == given {
			s.problem("pipe", describe(n)+" beside outside_diameter, wall or material", "one or the other")
		}
		return s.handMadeSize()
	}
	s.asked = append(s.asked, "outside_diameter", "wall", "material")
	switch {
	case st == faulty:
		return Size{}, false
	case st != given:
		size, _ := FindSize(f.value)
		s.guessWord("pipe", f)
		return size, true
	case n.kind == stringNode:
		if size, ok := FindSize(n.text); ok {
			return size, true
		}
	}
	known := sizeNames()
	s.problem("pipe", describe(n), "a pipe of the table, or outside_diameter, wall and material"+suggest(n.text, known)+"; known: "+strings.Join(known, ", "))
	return Size{}, false
}

func (s *scope) handMadeSize() (Size, bool) {
	od, ok1 := s.required("outside_diameter", units.Length, diameterLimit)
	wall, ok2 := s.required("wall", units.Length, wallLimit)
	m, ok3 := s.material("material", "")
	if ok1 && ok2 && 2*wall >= od {
		s.problem("wall", describe(s.node.children["wall"]), "less than half of outside_diameter ("+describe(s.node.children["outside_diameter"])+")")
		ok2 = false
	}
	return Size{Name: "by hand", OutsideDiameter: od, Wall: wall, Material: m, Roughness: smoothRoughness,
		Manning: smoothManning, Source: "layout; bore friction of smooth plastic"}, ok1 && ok2 && ok3
}
