package report

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

func TestPromisesAreFound(t *testing.T) {
	if got := Promises("It WILL\n   never freeze; Guaranteed."); !slices.Equal(got, []string{"guarantee", "will never"}) {
		t.Errorf("found %v", got)
	}
	if got := Promises("never thaw a pipe with a flame"); len(got) > 0 {
		t.Errorf("found %v", got)
	}
}

// No sentence that the program can print promises anything: every text in the sources of whatever reaches a reader, what is
// embedded beside them, and every expected screen.
func TestNothingIsPromised(t *testing.T) {
	texts := 0
	for _, dir := range []string{".", "../cmd/winterline", "../pipe", "../sim", "../weather"} {
		err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
			if err != nil || entry.IsDir() || path == "promises.go" || path == "promises_test.go" {
				return err
			}
			switch ext := filepath.Ext(path); {
			case ext == ".go" && !strings.HasSuffix(path, "_test.go"):
				texts += literals(t, path)
			case ext == ".txt", ext == ".toml", ext == ".csv" && !strings.Contains(path, "testdata"):
				texts++
				text, err := os.ReadFile(path)
				if err != nil {
					return err
				}
				told(t, path, string(text))
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if texts < 2000 {
		t.Errorf("only %d texts were looked at", texts)
	}
}

// literals looks at every text in a source file, joined ones as a whole, and says how many there are.
func literals(t *testing.T, path string) (n int) {
	file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	ast.Inspect(file, func(node ast.Node) bool {
		if expression, is := node.(ast.Expr); is {
			if text, is := literal(expression); is {
				n++
				told(t, path, text)
			}
		}
		return true
	})
	return n
}

// literal is the text of a literal, or of several that are joined.
func literal(e ast.Expr) (string, bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return text, e.Kind == token.STRING && err == nil
	case *ast.BinaryExpr:
		a, isText := literal(e.X)
		b, too := literal(e.Y)
		return a + b, isText && too && e.Op == token.ADD
	}
	return "", false
}

func told(t *testing.T, path, text string) {
	t.Helper()
	if found := Promises(text); len(found) > 0 {
		t.Errorf("%s promises: %v", path, found)
	}
}
