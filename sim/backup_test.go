package sim_test

import (
	"math"
	"strings"
	"testing"

	"winterline/sim"
)

// houseWithBackup is oddHouse with a pump whose line stands full, and a backup pump that starts
// at 18 in.
func houseWithBackup(line string) string {
	text := strings.Replace(oddHouse, "CURVE", `[["0 m", "150 L/min"], ["8 m", "0 L/min"]]`, 1)
	text = strings.Replace(text, `drop = "0.1 m"`, "drop = \"0.1 m\"\nsag = \"4 in\"", 1)
	if line == "" {
		return text
	}
	return text + "[[pump]]\nname = \"second\"\nrole = \"backup\"\nstart = \"14 in\"\nline = \"" + line + "\"\n" +
		"curve = [[\"0 m\", \"100 L/min\"], [\"9 m\", \"0 L/min\"]]\n"
}

// At −20 °C the sag of a line in the open freezes between two runs. A backup pump on the same line
// pushes against the same ice: the floor gets as wet as without one. On a line of its own it
// keeps the floor dry and lifts all that the main pump cannot.
func TestBackupOnAnIcedLine(t *testing.T) {
	none := mustOdd(t, houseWithBackup(""), -20, true)
	same := mustOdd(t, houseWithBackup("same"), -20, true)
	own := mustOdd(t, houseWithBackup("own"), -20, true)
	if none.Verdict.Closed == nil || none.Ledger.Floor <= 0 {
		t.Fatalf("without a backup the line should shut and the floor get wet: %+v", none.Ledger)
	}
	if math.Abs(same.Ledger.Floor-none.Ledger.Floor) > 1e-9 || same.Verdict.State != sim.Flooded {
		t.Errorf("backup on the same line: %.3f L on the floor, %.3f L without", 1000*same.Ledger.Floor, 1000*none.Ledger.Floor)
	}
	if own.Ledger.Floor != 0 || own.Ledger.Backup <= 0 || own.Verdict.State == sim.Flooded {
		t.Errorf("backup on its own line: %.3f L on the floor, %.3f L by the backup", 1000*own.Ledger.Floor, 1000*own.Ledger.Backup)
	}
}

// In a power cut of a mild day the backup, which has a battery, lifts the water through the same line.
func TestBackupInAPowerCut(t *testing.T) {
	cut := "[[outage]]\nstart = \"2026-01-05 00:00\"\nend = \"2026-01-07 00:00\"\n"
	without := mustOdd(t, houseWithBackup("")+cut, 8, true)
	with := mustOdd(t, houseWithBackup("same")+cut, 8, true)
	if without.Ledger.Floor <= 0 {
		t.Fatalf("two days without power should wet the floor: %+v", without.Ledger)
	}
	if with.Ledger.Floor != 0 || with.Ledger.Outlet <= 0 {
		t.Errorf("with a backup: %.3f L on the floor, %.3f L out", 1000*with.Ledger.Floor, 1000*with.Ledger.Outlet)
	}
	var ran bool
	for _, e := range with.Events {
		ran = ran || e.Kind == sim.EventBackupRunning
	}
	if !ran {
		t.Error("no event tells that the backup ran")
	}
}

// Without power from the start, the backup first lifts what waits once it fills the 18 in basin from half way between the floats, at 8.5
// in, to the backup's own at 14 in: 22.9 L, in whole runs of the main pump.
func TestBackupStartsByItsFloat(t *testing.T) {
	cut := "[[outage]]\nstart = \"2026-01-05 00:00\"\nend = \"2026-01-07 00:00\"\n"
	r := mustOdd(t, houseWithBackup("own")+cut, 8, true)
	const inch = 0.0254
	fills := 1000 * math.Pi / 4 * (18 * inch) * (18 * inch) * (14 - 8.5) * inch
	run := 1000 * r.Ledger.Arrived / 8
	want := run * math.Ceil(fills/run)
	for _, e := range r.Events {
		if e.Kind == sim.EventBackupRunning {
			if math.Abs(*e.Value-want) > 1e-6*want || want > 50 {
				t.Errorf("first lifted %g L; want %g, of runs of %g L", *e.Value, want, run)
			}
			return
		}
	}
	t.Error("the backup never ran")
}
