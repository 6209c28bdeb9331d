// Package units turns what people write into SI numbers and holds the one form of input error
// that the readers of winterline share. It imports nothing of winterline.
//
// Inside the program every quantity is a plain float64 in SI, with temperatures in °C and
// temperature differences in K. Text becomes a number here and in the columns of package weather,
// nowhere else.
//
//   - Parse reads a quantity of a Dimension with its unit, such as "1-1/2 in" or "48 degF"; Write
//     gives text that Parse reads back to the same number. ParseNumber reads a number without a
//     unit, ParseTime a stamp. names.go holds the units and their exact factors.
//   - ReadTable reads a comma-separated file with a header row; see Table.
//   - Their errors are of type *Error: what was found and what was expected. A reader that knows
//     the place makes it a Problem (At) with file, line and key or column, and collects Problems so
//     that all faults of a file are told at once. FewOfAKind keeps such a list short, Nearest finds
//     the word that was meant.
//
// Bounds are not checked here: what range a quantity may have is for the reader of its key to say.
package units
