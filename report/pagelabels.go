package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"winterline/pipe"
	"winterline/sim"
)

// pin is something that the picture of the line points at: a part by its number, or a place by its name.
type pin struct {
	x, y   float64 // where it points
	number int     // of a part; 0: a place
	words  string  // of a place
	state  string
	slot   float64 // where it passes the row of numbers
}

// width is the room that a pin takes in the row of numbers; a place only passes it.
func (p pin) width() float64 {
	if p.number > 0 {
		return 23
	}
	return 10
}

const (
	wordRow   = 18.0 // baseline of the places' names
	numberRow = 44.0 // middle of the numbers
	letter    = 6.9  // width of a letter of those names, on the wide side
)

// labels puts numbers and names above the picture, each with a line to what it means. They keep the order along the line, so
// that no two lines cross above the ground.
func (d *lineDrawing) labels() {
	pins := d.pins()
	slices.SortStableFunc(pins, func(a, b pin) int { return cmp.Compare(a.x, b.x) })
	d.placePins(pins)
	d.drawPlaces(pins)
	for _, p := range pins {
		if p.number > 0 {
			d.leader(p)
		}
	}
	for _, p := range pins {
		if p.number > 0 {
			d.tag(p)
		}
	}
	d.inside()
}

func (d *lineDrawing) pins() []pin {
	var pins []pin
	for _, p := range d.parts {
		if p.number == 0 || len(p.cells) == 0 {
			continue
		}
		c := p.cells[len(p.cells)/2]
		at := pin{x: d.x((c.X0 + c.X1) / 2), number: p.number, state: p.state}
		if c.Vertical {
			at.y = (d.y(c.Z0) + d.y(c.Z1)) / 2
			if top := p.cells[len(p.cells)-1]; math.Max(top.Z0, top.Z1) > math.Max(c.Z0, c.Z1) {
				at.y = d.y(math.Max(top.Z0, top.Z1))
			}
		} else {
			at.y = d.y((c.Z0+c.Z1)/2) - math.Max(c.Bore*d.perMetre*d.times, thinnestPipe)/2
		}
		pins = append(pins, at)
	}
	for _, o := range d.r.Layout.Reliefs[:min(1, len(d.r.Layout.Reliefs))] {
		x, z := reliefPlace(d.r, o)
		pins = append(pins, pin{x: d.x(x) + 1, y: d.y(z + o.OpeningHeight/2), words: "relief opening"})
	}
	x, z := lidLevel(d.r)
	end := "open end"
	if d.r.Layout.Outlet.Kind == pipe.Lid {
		end = "lid"
	}
	return append(pins, pin{x: d.x(x) + 1, y: d.y(z), words: end})
}

// placePins finds each its place in the row of numbers: as near as can be to what it points at, none over another.
func (d *lineDrawing) placePins(pins []pin) {
	// Pins that touch form a block, which sits where its members wish to be on average.
	type block struct {
		first, count int
		left, width  float64
	}
	wish := func(b block) float64 {
		sum, before := 0.0, 0.0
		for _, p := range pins[b.first : b.first+b.count] {
			sum += p.x - before - p.width()/2
			before += p.width()
		}
		return math.Max(2, math.Min(sum/float64(b.count), pictureWidth-2-b.width))
	}
	var blocks []block
	for i, p := range pins {
		b := block{i, 1, 0, p.width()}
		b.left = wish(b)
		for len(blocks) > 0 && blocks[len(blocks)-1].left+blocks[len(blocks)-1].width > b.left {
			last := blocks[len(blocks)-1]
			blocks = blocks[:len(blocks)-1]
			b = block{last.first, last.count + b.count, 0, last.width + b.width}
			b.left = wish(b)
		}
		blocks = append(blocks, b)
	}
	for _, b := range blocks {
		at := b.left
		for i := b.first; i < b.first+b.count; i++ {
			pins[i].slot = at + pins[i].width()/2
			at += pins[i].width()
		}
	}
}

// drawPlaces writes the names of places over the row of numbers, shifted aside where two would meet.
func (d *lineDrawing) drawPlaces(pins []pin) {
	end := 0.0
	for _, p := range pins {
		if p.number > 0 {
			continue
		}
		half := letter * float64(len(p.words)) / 2
		middle := math.Min(math.Max(p.slot, math.Max(end, 4)+half), pictureWidth-4-half)
		end = middle + half + 12
		d.trace(faint, 1, "", middle, wordRow+5, p.slot, numberRow-12, p.slot, numberRow+12, p.x, p.y)
		fmt.Fprintf(&d.out, `<circle cx="%s" cy="%s" r="2" fill="%s"/>`, svgNumber(p.x), svgNumber(p.y), hexColor(ink))
		d.words(middle, wordRow, "middle", p.words)
	}
}

func (d *lineDrawing) words(x, y float64, anchor, words string) {
	fmt.Fprintf(&d.out, `<text x="%s" y="%s" text-anchor="%s" fill="%s">%s</text>`, svgNumber(x), svgNumber(y), anchor, hexColor(ink), words)
}

func (d *lineDrawing) leader(p pin) {
	d.trace(faint, 1, "", p.slot, numberRow, p.slot, numberRow+12, p.x, p.y)
	fmt.Fprintf(&d.out, `<circle cx="%s" cy="%s" r="2" fill="%s"/>`, svgNumber(p.x), svgNumber(p.y), hexColor(ink))
}

// tag is the number of a part: a square where it froze shut, a round one else, so that it can be told in grey.
func (d *lineDrawing) tag(p pin) {
	fill, letters := hexColor(white), hexColor(ink)
	switch p.state {
	case "shut":
		fill, letters = hexColor(brick), hexColor(white)
	case "iced":
		fill, letters = hexColor(navy), hexColor(white)
	}
	corner := 10.0
	if p.state == "shut" {
		corner = 2
	}
	fmt.Fprintf(&d.out, `<rect x="%s" y="%s" width="20" height="20" rx="%s" fill="%s" stroke="%s" stroke-width="1.2"/>`,
		svgNumber(p.slot-10), svgNumber(numberRow-10), svgNumber(corner), fill, hexColor(ink))
	fmt.Fprintf(&d.out, `<text class="tag" x="%s" y="%s" text-anchor="middle" fill="%s">%d</text>`, svgNumber(p.slot), svgNumber(numberRow+4.3), letters, p.number)
}

// inside names the room where there is room for the word.
func (d *lineDrawing) inside() {
	if fromHouse(d.r) {
		words, wide := "basement", letter*8
		if d.r.Layout.Basin == nil {
			words, wide = "house", letter*5
		}
		left := d.x(d.window.x0)
		if right := d.x(riserAt) - 12; right-left > wide && d.y(-0.3)+16 < d.height {
			d.words(left+6, d.y(-0.3)+14, "start", words)
		}
	}
}

// lineRow is a row of the table below the picture.
type lineRow struct {
	Number            int // 0: none in the picture
	Name, Where       string
	State, Words      string // "shut", "iced" or "clear", and the same in words
	First, Shut, Most string
}

// lineRows tell what became of each part, from the pump outwards.
func lineRows(r *sim.Result, s System) []lineRow {
	numbers := map[int]int{}
	for n, i := range taggedParts(r) {
		numbers[i] = n + 1
	}
	var rows []lineRow
	for _, i := range flowOrder(r) {
		seg := r.Segments[i]
		row := lineRow{Number: numbers[i], Name: capital(seg.Name), Where: capital(settingWords[seg.Setting]), State: partState(seg),
			Words: partWords[partState(seg)], First: "never", Shut: "never", Most: "none"}
		if seg.FirstIce != nil {
			row.First = spokenTime(r.Start, *seg.FirstIce)
		}
		if seg.Closed != nil {
			row.Shut = spokenTime(r.Start, *seg.Closed) + ", for " + spokenDuration(seg.HoursClosed*3600) + " in all"
		}
		if seg.Standing >= puddle {
			row.Most = s.bothVolumes(seg.Standing)
			if seg.LargestIce > 0 {
				row.Most += ", " + percent(seg.LargestIce) + " of it ice"
			}
		}
		rows = append(rows, row)
	}
	return rows
}

// partWords say what became of a part.
var partWords = map[string]string{"shut": "Frozen shut", "iced": "Ice", "clear": "No ice"}
