package report

import (
	"io"
	"strings"

	"winterline/weather"
)

// SnapScreen prints how a design cold snap was made, the file that holds it and how to use it, for a window so many
// columns wide (0: not known).
func SnapScreen(w io.Writer, s *weather.Series, file string, window int) error {
	p := newSheet(window)
	p.line("Design cold snap: " + strings.Join(s.Design, "; ") + ".")
	p.gap()
	files := []string{file}
	p.blocks(block{"Written", writtenWords(files)}, block{"Next", nextWithWeather(files)})
	return p.print(w)
}

// writtenWords name files that were written, the first and the last of several.
func writtenWords(files []string) []string {
	if n := len(files); n > 1 {
		return []string{files[0] + " to " + files[n-1]}
	}
	return files
}

// nextWithWeather is the command to type after a weather file was written; nothing after none, nor after several, of
// which each is only a part of the record.
func nextWithWeather(files []string) []string {
	if len(files) != 1 {
		return nil
	}
	return []string{"winterline run CASE --weather " + files[0], "(your own line, CASE being its folder, under this weather)"}
}
