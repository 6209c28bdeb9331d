package main

import (
	"fmt"
	"io"
	"io/fs"
	"os"
)

// readBounded reads a file whole, unless it holds more than so many bytes; it never reads more. open is that of a folder.
func readBounded(name string, open func(string) (fs.File, error), most int64) ([]byte, error) {
	file, err := open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, most+1))
	switch {
	case err != nil:
		return nil, err
	case int64(len(text)) > most:
		return nil, tooLargeError{most}
	}
	return text, nil
}

// opened opens a file that a flag names.
func opened(name string) (fs.File, error) { return os.Open(name) }

// tooLargeError says that a file is larger than what is read of its kind [bytes].
type tooLargeError struct{ most int64 }

// Error says it as what was found.
func (e tooLargeError) Error() string { return fmt.Sprintf("a file of more than %d MiB", e.most>>20) }
