package weather

import "bytes"

// foreign says what a file is that is no text table at all; "" for one that may be. What
// people save in place of a table is worth a message of its own.
func foreign(head []byte) string {
	for _, f := range []struct{ begin, is string }{
		{"PK\x03\x04", "a zip archive or a spreadsheet's own file"},
		{"\xd0\xcf\x11\xe0", "an old spreadsheet's own file"},
		{"%PDF", "a PDF"},
		{"\xff\xfe", "a text in UTF-16"},
		{"\xfe\xff", "a text in UTF-16"},
		{"CDF\x01", "a netCDF file"},
		{"CDF\x02", "a netCDF file"},
		{"\x89HDF", "a netCDF or HDF file"},
		{"GRIB", "a GRIB file"},
	} {
		if bytes.HasPrefix(head, []byte(f.begin)) {
			return f.is
		}
	}
	start := bytes.TrimLeft(head, " \t\r\n")
	switch {
	case len(start) == 0:
		return ""
	case start[0] == '<':
		return "a web page or XML"
	case start[0] == '{' || start[0] == '[':
		return "JSON"
	case bytes.IndexByte(head, 0) >= 0:
		return "a file that is not text"
	case bytes.IndexByte(head, '\r') >= 0 && bytes.IndexByte(head, '\n') < 0 && bytes.IndexByte(bytes.TrimRight(head, "\r"), '\r') >= 0:
		return "a text whose lines end with a carriage return alone"
	}
	return ""
}

// textAdvice is what is expected in place of a foreign file.
const textAdvice = "a text table in UTF-8, such as a CSV download, as it is or compressed with gzip"
