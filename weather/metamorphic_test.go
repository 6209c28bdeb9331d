package weather

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// tidyRows draws hourly rows in order, without their header.
func tidyRows(t *rapid.T) []string {
	at := time.Date(2025, 12, 1, 0, 0, 0, 0, time.UTC)
	var rows []string
	for h := range rapid.IntRange(10, 60).Draw(t, "rows") {
		air := rapid.IntRange(-100, 0).Draw(t, "air") // in tenths: no jump of 12 K, so no spike
		rows = append(rows, fmt.Sprintf("%s,%.1f,%d\n", at.Add(time.Duration(h)*time.Hour).Format("2006-01-02 15:04"), float64(air)/10, h%7))
	}
	return rows
}

const tidyHeader = "time,air_temp_c,wind_m_s\n"

// However the rows of a tidy file are shuffled and doubled, mending gives the tidy file's series.
func TestMendShuffled(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := tidyRows(t)
		want, err := readTexts(Options{}, tidyHeader+strings.Join(rows, ""))
		if err != nil {
			t.Fatal(err)
		}
		untidy := rapid.Permutation(append(rows, rows[:rapid.IntRange(0, len(rows)).Draw(t, "doubled")]...)).Draw(t, "order")
		got, err := mend(tidyHeader + strings.Join(untidy, ""))
		if err != nil {
			t.Fatal(err)
		}
		if said := differences(want, got); said != "" {
			t.Fatal(said)
		}
	})
}

// However a tidy file is cut into files that overlap, in whatever order they are named, they
// join into the series of the whole.
func TestJoinCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := tidyRows(t)
		want, err := readTexts(Options{}, tidyHeader+strings.Join(rows, ""))
		if err != nil {
			t.Fatal(err)
		}
		var files []string
		for from := 0; from < len(rows); {
			to := min(len(rows), from+rapid.IntRange(3, 20).Draw(t, "length"))
			overlap := rapid.IntRange(0, min(from, 2)).Draw(t, "overlap")
			files = append(files, tidyHeader+strings.Join(rows[from-overlap:to], ""))
			from = to
		}
		got, err := readTexts(Options{}, rapid.Permutation(files).Draw(t, "order")...)
		if err != nil {
			t.Fatal(err)
		}
		if said := differences(want, got); said != "" {
			t.Fatal(said)
		}
	})
}
