package weather

import "winterline/pipe/units"

// emptied counts what stood in a column in place of values.
type emptied struct {
	codes     occurrence // the format's codes for missing
	likely    occurrence // numbers beyond the limits that look like such a code
	valueless occurrence // codes that stand for no value of the quantity
	flagged   occurrence // values that their flag rejects
	beyond    occurrence // values beyond the limits
	values    int        // that were taken
}

// occurrence is something that stands in a column, perhaps in many rows.
type occurrence struct {
	row, count int    // the first row, and how many there are
	text       string // in the first
}

// add counts one more, in the given row.
func (o *occurrence) add(row int, text []byte) {
	if o.count++; o.count == 1 {
		o.row, o.text = row, string(text)
	}
}

// refuseAir refuses a column of air temperatures of which more are beyond the limits than
// within: they are in another unit, or another quantity.
func (f *faults) refuseAir(r *record, c recordColumn, e emptied, limits string) {
	o := e.beyond
	if c.quantity != airTemperature || o.count <= e.values {
		return
	}
	found := o.text
	if o.count > 1 {
		found += ", and " + units.Plural(o.count-1, "more value") + " beyond the limits"
	}
	f.refuse(r.problem(o.row, c.name, found, limits))
}

// emptiedWords say why something was emptied.
type emptiedWords struct {
	limits    string // of the column
	flag      string // what the flag says
	valueless string // what codes without a value tell of
}

// enter lists in the ledger what was emptied of a column.
func (r *record) enter(name string, e emptied, say emptiedWords) {
	for _, o := range []struct {
		occurrence
		kind RepairKind
		why  string
	}{
		{e.codes, Emptied, ""},
		{e.likely, Emptied, ", looks like one: beyond " + say.limits},
		{e.valueless, Uncoded, ", which stands for " + say.valueless},
		{e.flagged, Flagged, ", " + say.flag},
		{e.beyond, Beyond, ", beyond " + say.limits},
	} {
		if o.count > 0 {
			r.repaired(o.row, Repair{Kind: o.kind, Column: name, Count: o.count, Evidence: o.text + o.why})
		}
	}
}
