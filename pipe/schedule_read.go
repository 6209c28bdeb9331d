package pipe

import (
	"fmt"
	"io"
	"iter"
	"slices"
	"strings"
	"time"

	"winterline/pipe/units"
)

// MaxSchedule is the largest file of pump cycles or inflow that is read [bytes]: some two million rows.
const MaxSchedule = 64 << 20

// ReadCycles reads pump cycles: columns start, run_s and, where a meter logged it, flow_l_min or
// flow_gal_min. Cycles must follow each other without overlap. A file that holds only its header
// gives no cycles. All faults are returned at once; name is the file as the user named it.
func ReadCycles(name string, r io.Reader) ([]Cycle, units.Problems) {
	s := openSchedule(name, r, []string{"start", "run_s"}, []string{"flow_l_min", "flow_gal_min"})
	if s.broken {
		return nil, s.told()
	}
	const expected = "a run in seconds, above 0 and at most 366 days"
	cycles := make([]Cycle, 0, len(s.table.Rows))
	for i := range s.rows() {
		start, ok1 := s.stamp(i, "start")
		run, ok2 := s.amount(i, "run_s", 1, expected)
		if ok2 && (run == 0 || run > 366*86400) {
			s.fault(i, "run_s", expected)
			ok2 = false
		}
		flow, ok3 := s.flow(i, 0.1, "flow_l_min", "flow_gal_min")
		if !ok1 || !ok2 || !ok3 {
			continue
		}
		if last := len(cycles) - 1; last >= 0 && start.Before(cycles[last].end()) {
			s.fault(i, "start", "a start at or after the end of the cycle before, "+cycles[last].end().Format("2006-01-02 15:04:05"))
			continue
		}
		cycles = append(cycles, Cycle{Start: start, Run: run, Flow: flow})
	}
	if len(s.problems) > 0 {
		return nil, s.told()
	}
	return cycles, nil
}

// end returns when the pump stops.
func (c Cycle) end() time.Time { return c.Start.Add(time.Duration(c.Run * float64(time.Second))) }

// ReadInflow reads water reaching the basin: columns time and inflow_l_h or inflow_gal_h, each row
// holding until the next one's time. All faults are returned at once.
func ReadInflow(name string, r io.Reader) ([]InflowRow, units.Problems) {
	s := openSchedule(name, r, []string{"time"}, []string{"inflow_l_h", "inflow_gal_h"})
	if !s.broken && s.table.Column("inflow_l_h") < 0 && s.table.Column("inflow_gal_h") < 0 {
		s.header("nothing", "a column inflow_l_h or inflow_gal_h")
	}
	if s.broken {
		return nil, s.told()
	}
	rows := make([]InflowRow, 0, len(s.table.Rows))
	for i := range s.rows() {
		at, ok1 := s.stamp(i, "time")
		inflow, ok2 := s.flow(i, 0.1, "inflow_l_h", "inflow_gal_h")
		if !ok1 || !ok2 {
			continue
		}
		if s.empty(i, "inflow_l_h") && s.empty(i, "inflow_gal_h") {
			s.fault(i, s.present("inflow_l_h", "inflow_gal_h"), "a number of 0 or more")
			continue
		}
		if last := len(rows) - 1; last >= 0 && !at.After(rows[last].Time) {
			s.fault(i, "time", "a time after the row before, "+rows[last].Time.Format("2006-01-02 15:04:05"))
			continue
		}
		rows = append(rows, InflowRow{Time: at, Inflow: inflow})
	}
	if len(s.problems) > 0 {
		return nil, s.told()
	}
	return rows, nil
}

// schedule is a table of pump cycles or inflow while it is read.
type schedule struct {
	table    *units.Table
	problems units.Problems
	broken   bool   // the header does not allow reading the rows
	offset   string // from UTC, of the first time that carries one
}

// openSchedule reads the table and checks its header: all of needed, at most one of either.
// Columns whose names start with x_ are the user's own.
func openSchedule(name string, r io.Reader, needed, either []string) *schedule {
	t, ps := units.ReadTable(name, r)
	s := &schedule{table: t, problems: ps}
	if t.Header == nil {
		s.broken = true
		return s
	}
	if strange := strangeHeader(t.Header); strange != "" {
		s.header(strange, "a text in UTF-8 with commas between columns, a point in decimals and rows on lines of their own")
		return s
	}
	known := slices.Concat(needed, either)
	for _, h := range t.Header {
		if !slices.Contains(known, h) && !strings.HasPrefix(h, "x_") {
			s.header(fmt.Sprintf("an unknown column %q", units.Shorten(h)), "columns "+strings.Join(needed, ", ")+" and one of "+strings.Join(either, ", ")+suggest(h, known))
		}
	}
	for _, n := range needed {
		if t.Column(n) < 0 {
			s.header("no column "+n, "columns "+strings.Join(needed, ", "))
		}
	}
	if t.Column(either[0]) >= 0 && t.Column(either[1]) >= 0 {
		s.header(either[0]+" beside "+either[1], "one or the other")
	}
	return s
}

// strangeHeader says what is wrong with a header that another form of file has led to, "" for none:
// semicolons or tabs between columns, UTF-16, or line ends that are a carriage return alone.
func strangeHeader(header []string) string {
	for _, h := range header {
		switch {
		case strings.ContainsAny(h, "\r\x00"):
			return fmt.Sprintf("%q as a column", units.Shorten(h))
		case len(header) == 1 && strings.ContainsAny(h, ";\t"):
			return fmt.Sprintf("%q as the only column", units.Shorten(h))
		}
	}
	return ""
}

// told returns the faults as the user reads them: in the order of the file, those that are alike together.
func (s *schedule) told() units.Problems {
	sortProblems(s.problems)
	return s.problems.FewOfAKind()
}

// header reports a fault of the header row; the rows are then not read.
func (s *schedule) header(found, expected string) {
	s.broken = true
	s.problems = append(s.problems, units.Problem{File: s.table.Name, Line: s.table.HeaderLine, Key: "header", Found: found, Expected: expected})
}

// rows goes through the table's rows, by index, until too many faults are told.
func (s *schedule) rows() iter.Seq[int] {
	return func(yield func(int) bool) {
		for i := range s.table.Rows {
			if len(s.problems) >= units.MaxProblems {
				s.problems = append(s.problems, units.TooManyProblems(s.table.Name, s.table.Lines[i]))
				return
			}
			if !yield(i) {
				return
			}
		}
	}
}

// cell returns the text of a column in row i, "" where there is no such column.
func (s *schedule) cell(i int, column string) string {
	c := s.table.Column(column)
	if c < 0 {
		return ""
	}
	return s.table.Rows[i][c]
}

func (s *schedule) empty(i int, column string) bool { return s.cell(i, column) == "" }

// present returns the one of two columns that the table has.
func (s *schedule) present(a, b string) string {
	if s.table.Column(a) >= 0 {
		return a
	}
	return b
}

func (s *schedule) fault(i int, column, expected string) {
	found := fmt.Sprintf("%q", units.Shorten(s.cell(i, column)))
	if s.empty(i, column) {
		found = "nothing"
	}
	s.problems = append(s.problems, units.Problem{File: s.table.Name, Line: s.table.Lines[i], Key: column, Found: found, Expected: expected})
}

// stamp reads the time of a row. An offset tells of the file's clock and is dropped; one that
// changes would move rows by an hour, and is refused.
func (s *schedule) stamp(i int, column string) (time.Time, bool) {
	text := s.cell(i, column)
	t, err := units.ParseTime(text)
	if err != nil {
		s.problems = append(s.problems, units.At(s.table.Name, s.table.Lines[i], column, err))
		return t, false
	}
	if offset := units.OffsetOf(text); s.offset == "" {
		s.offset = offset
	} else if offset != "" && offset != s.offset {
		s.fault(i, column, "one clock throughout, local standard time: the offset "+s.offset+" as on earlier rows")
		return t, false
	}
	return t, true
}

// amount reads a number of 0 or more and scales it.
func (s *schedule) amount(i int, column string, scale float64, expected string) (float64, bool) {
	v, err := units.ParseNumber(s.cell(i, column))
	if err != nil || v < 0 {
		s.fault(i, column, expected)
		return 0, false
	}
	return v * scale, true
}

// flow reads the flow of a row [m³/s] from whichever of two columns is there; 0 where it is empty.
func (s *schedule) flow(i int, most float64, columns ...string) (float64, bool) {
	for _, c := range columns {
		if s.empty(i, c) {
			continue
		}
		expected := fmt.Sprintf("a number of 0 or more, at most %g L/s", most*1000)
		v, ok := s.amount(i, c, columnUnit(c), expected)
		if ok && v > most {
			s.fault(i, c, expected)
			ok = false
		}
		return v, ok
	}
	return 0, true
}

// columnUnit returns what 1 in a flow column is in SI [m³/s].
func columnUnit(column string) float64 {
	unit := map[string]string{"flow_l_min": "L/min", "flow_gal_min": "gal/min", "inflow_l_h": "L/h", "inflow_gal_h": "gal/h"}[column]
	return si(units.Flow, "1 "+unit)
}
