package main

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"

	"winterline/pipe/units"
	"winterline/weather"
)

// digests are the SHA-256 of what was read, by name, as summaries carry them.
type digests map[string]string

// keep takes the digest of a text.
func (d digests) keep(name string, text []byte) {
	sum := sha256.Sum256(text)
	d.keepDigest(name, sum[:])
}

// keepDigest takes a digest; a second one of the same name gets a number.
func (d digests) keepDigest(name string, sum []byte) {
	key := name
	for n := 2; d[key] != ""; n++ {
		key = fmt.Sprintf("%s (%d)", name, n)
	}
	d[key] = hex.EncodeToString(sum)
}

// summedFiles are files that are read through their check sums.
type summedFiles struct {
	files []weather.File
	read  []*summedFile // by file; nil: never opened
}

// newSummedFiles gives files that take a check sum of all their bytes, as they lie on the disk,
// while they are read.
func newSummedFiles(files []weather.File) summedFiles {
	s := summedFiles{read: make([]*summedFile, len(files))}
	for i, f := range files {
		s.files = append(s.files, weather.File{Name: f.Name, Open: func() (io.ReadCloser, error) {
			in, err := f.Open()
			if err != nil {
				return nil, err
			}
			sum := sha256.New()
			s.read[i] = &summedFile{Reader: io.TeeReader(in, sum), file: in, sum: sum}
			return s.read[i], nil
		}})
	}
	return s
}

// digest is the check sum of a file that has been read.
func (s *summedFiles) digest(i int) []byte {
	if s.read[i] == nil {
		return sha256.New().Sum(nil)
	}
	return s.read[i].sum.Sum(nil)
}

// unread refuses files that were taken, ok, though much follows what was read of them.
func (s *summedFiles) unread(ok bool) (problems units.Problems) {
	for i, f := range s.read {
		if ok && f != nil && f.cut {
			problems = append(problems, units.Problem{File: s.files[i].Name, Found: "more than 1 MiB behind the end of the record", Expected: "the record alone"})
		}
	}
	return problems
}

// summedFile is a file whose reader is not bound to come to its end.
type summedFile struct {
	io.Reader
	file io.Closer
	sum  hash.Hash
	cut  bool // more follows than was read for the check sum
}

// mostBehind is how much is read behind what a reader took [bytes]: a file that was refused at its first line may
// never end.
const mostBehind = 1 << 20

// Close reads what is left, for the check sum.
func (f *summedFile) Close() error {
	n, err := io.CopyN(io.Discard, f.Reader, mostBehind)
	f.cut = n == mostBehind
	if err == io.EOF {
		err = nil
	}
	return errors.Join(err, f.file.Close())
}
