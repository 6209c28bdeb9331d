package weather

import "strings"

// designRemark begins the comments by which the plain form says that it is a design cold
// snap, and how that was made.
const designRemark = "# design cold snap: "

// mostDesignLines is how many such comments are kept.
const mostDesignLines = 20

// addDesign takes a comment that says how a design cold snap was made; others are passed over.
func (r *record) addDesign(comment []byte) {
	line, ok := strings.CutPrefix(string(comment), designRemark)
	if line = oneLine(line); ok && line != "" && len(r.design) < mostDesignLines {
		r.design = append(r.design, line)
	}
}

// oneLine makes every run of blanks and line ends one blank: names of files may hold any.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
