package report

// shown is a column of a table on the screen, whose rows are of type R.
type shown[R any] struct {
	name string
	text func(row R) string // "": nothing
}

// filledTable makes a table with its header row. Columns without any entry are left out; elsewhere "-" stands for none.
func filledTable[R any](rows []R, columns []shown[R]) [][]string {
	table := make([][]string, len(rows)+1)
	for _, c := range columns {
		any := false
		var texts []string
		for _, row := range rows {
			text := c.text(row)
			any = any || text != ""
			texts = append(texts, text)
		}
		if !any {
			continue
		}
		table[0] = append(table[0], c.name)
		for i, text := range texts {
			if text == "" {
				text = "-"
			}
			table[i+1] = append(table[i+1], text)
		}
	}
	return table
}
