package weather

import "winterline/pipe/units"

// format is a form of weather file, recognised by what stands in it.
type format struct {
	name      string                                      // as told to the user
	recognise func(head []byte) bool                      // by the first 64 KiB, or the whole of a shorter file, without byte-order mark
	read      func(src *source) (*record, units.Problems) // the record is nil when there are problems
}

// formats are the forms that are read, in the order in which they are tried. What none
// of them recognises is read as the plain form, whose messages say what is expected.
func formats() []format {
	return []format{
		plainForm,
		epwForm,
		tmy3Form,
		isdLiteForm,
		uscrnForm,
		lcdForm,
		canadaForm,
		metarForm,
		reanalysisForm,
	}
}

// formatOf recognises the format of a file by its beginning; ok is false where none fits.
func formatOf(head []byte) (f format, ok bool) {
	for _, f := range formats() {
		if f.recognise(head) {
			return f, true
		}
	}
	return plainForm, false
}
