// Package weather turns files of weather into a clean series: air temperature and whatever else
// the record has, in SI, on one time axis of local standard time.
//
// # Conventions
//
// Temperatures are in °C, wind in m/s at 10 m, snow depth in m, rain and snowfall in m of water,
// radiation in W/m² on the horizontal, cloud cover as a share from 0 to 1. Times are wall-clock
// times in local standard time, carried as UTC; inside a Series they are seconds since the first
// row. States (temperature, wind, snow depth and so on) stand at their stamp and are joined
// linearly. Amounts (rain, snowfall) fall between their stamp and the next row.
//
// # From files to a series
//
// A file passes these steps, each in files of its own:
//
//   - open.go finds the files, takes off compression and asks formats.go for the format, by what
//     stands in the file. source.go hands out lines, csv.go and fields.go fields, up to limits.
//   - read_NAME.go reads one format into a record (record.go): rows as the file has them, in SI,
//     missing values as NaN, amounts at the beginning of their time. What is wrong with a field is
//     a units.Problem; what the reader had to assume is a Note.
//   - clean.go mends what is wrong between rows: summer time, order, doubles, reports between the
//     hours, spikes. Each repair is entered in the ledger (ledger.go). The plain form, which is
//     winterline's own, is refused instead, unless Options.Mend asks for repairs.
//   - join.go makes one record of several files.
//   - gaps.go bridges gaps of up to 6 h and refuses longer ones; spans.go takes the record apart
//     at them instead. The result is one Series, or several.
//
// Read, ReadFiles and ReadSpans do all of this, and return every fault of the files at once.
//
// # What a series answers
//
//   - Snow: depth and density of the snow on open ground, measured or from a model of the pack
//     (snow.go, pack.go, snowphysics.go). CloudFromSun: cloud cover where only the sun is recorded.
//     Runoff: rain and meltwater from a roof.
//   - Annual: mean and swing of the yearly wave of the air. Winters and WholeWinters: how cold each
//     winter was, and which rows are its season. Parts cuts such seasons out.
//   - DigestOf: all that there is to say of a record, for a screen. Bridged: what was missing.
//
// Snap makes a design cold snap by rule, ReturnSnap one from a record and a return period (with
// package chance); WritePlain writes a series that Read takes back unchanged.
//
// # What it does not do
//
// It knows nothing of pipes, houses or ground. It fetches nothing from a network. It guesses no
// missing quantity: a column that the record does not have is nil.
package weather
