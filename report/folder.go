package report

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
)

// SummaryName is the file by which a results folder is known.
const SummaryName = "summary.json"

// MaxSummary is the largest summary.json that is read [bytes]; the program writes some 100 KB.
const MaxSummary = 16 << 20

// FolderError says that a folder cannot take results as things stand: what is there
// is not ours to replace, or there is no place to put it. It is the user's to mend.
type FolderError struct {
	Dir      string
	Found    string
	Expected string
}

// Error gives "dir: found …; expected …".
func (e *FolderError) Error() string {
	return fmt.Sprintf("%s: found %s; expected %s", e.Dir, e.Found, e.Expected)
}

// WriteFolderContext writes files as the results folder dir, whole or not at all: they are
// built in a hidden folder beside it, flushed to disk and moved into place. An
// existing folder is replaced only if its summary.json is ours; otherwise, and when
// the folder that should hold dir does not exist, the error is a *FolderError.
// Once ctx is done it stops between two files. On any error what stood there before
// stands there still, and nothing is left behind. What an earlier run left beside it
// when it was killed is put back or removed (leftovers.go).
func WriteFolderContext(ctx context.Context, dir string, files []File) error {
	building, target, err := makeRoom(dir)
	if err != nil {
		return err
	}
	// After the move this removes nothing: the name is gone.
	defer os.RemoveAll(building)
	if err := fill(ctx, building, files); err != nil {
		return err
	}
	return moveIntoPlace(building, target)
}

// resolveTarget gives the absolute path to write, through a symbolic link if dir is one.
func resolveTarget(dir string) (string, error) {
	target, err := filepath.Abs(dir)
	if err != nil {
		return "", fmt.Errorf("results folder: %w", err)
	}
	if real, err := filepath.EvalSymlinks(target); err == nil {
		target = real
	}
	parent := filepath.Dir(target)
	if parent == target {
		return "", &FolderError{dir, "the root folder", "a folder of its own for the results"}
	}
	info, err := os.Stat(parent)
	if err != nil || !info.IsDir() {
		return "", &FolderError{dir, "no folder to hold it", "an existing folder above it"}
	}
	return target, nil
}

// MayReplace gives the *FolderError that WriteFolderContext would, before there is anything to
// write; nil where dir can take results. It makes a hidden folder where that would, and takes it away again.
func MayReplace(dir string) error {
	building, _, err := makeRoom(dir)
	if err != nil {
		return err
	}
	return os.Remove(building)
}

// makeRoom finds the target of dir, tidies up beside it and makes the hidden folder in which results are built.
func makeRoom(dir string) (building, target string, err error) {
	if target, err = resolveTarget(dir); err != nil {
		return "", "", err
	}
	putBack(target)
	if err := mayReplace(dir, target); err != nil {
		return "", "", err
	}
	if building, err = makeBeside(dir, target); err != nil {
		return "", "", err
	}
	removeLeft(building, target)
	return building, target, nil
}

// makeBeside makes the hidden folder beside target in which results are built.
func makeBeside(dir, target string) (string, error) {
	building, err := os.MkdirTemp(filepath.Dir(target), hiddenName(target, newMark)+"*")
	switch {
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		return "", &FolderError{dir, "no way to write beside it (" + withoutPath(err).Error() + ")", "a folder above it that can be written to"}
	case err != nil:
		return "", fmt.Errorf("results folder: %w", withoutPath(err))
	}
	return building, nil
}

// mayReplace refuses to touch anything but results of ours.
func mayReplace(dir, target string) error {
	refuse := func(found string) error {
		return &FolderError{dir, found, "a new folder, or earlier results of winterline"}
	}
	info, err := os.Lstat(target)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("results folder: %w", err)
	}
	if !info.IsDir() {
		return refuse("a file")
	}
	text, err := readSummary(filepath.Join(target, SummaryName))
	switch {
	case errors.Is(err, fs.ErrPermission):
		return refuse("a folder whose summary.json cannot be read")
	case err != nil:
		return refuse("a folder without a summary.json")
	}
	var summary struct {
		Schema string `json:"schema"`
	}
	if json.Unmarshal(text, &summary) != nil || !ownSchema(summary.Schema) {
		return refuse("a folder whose summary.json is not ours")
	}
	return nil
}

// readSummary reads a summary.json, of a larger file than ours can be the beginning.
func readSummary(path string) ([]byte, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(io.LimitReader(file, MaxSummary))
}

// ownSchema says whether a schema is one of the program's, whatever its number.
func ownSchema(schema string) bool {
	family, _, _ := strings.Cut(schema, "/")
	for _, known := range []string{runSchema, groundSchema, weatherSchema, sizeSchema, whySchema, wintersSchema, compareSchema} {
		if own, _, _ := strings.Cut(known, "/"); family == own {
			return true
		}
	}
	return false
}

// fill writes the files into folder and flushes all to disk.
func fill(ctx context.Context, folder string, files []File) error {
	for _, f := range files {
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := writeFile(folder, f); err != nil {
			return fmt.Errorf("%s: %w; the results folder is left as it was", f.Name, withoutPath(err))
		}
	}
	if err := os.Chmod(folder, 0o755); err != nil { // MkdirTemp makes it private
		return err
	}
	return syncFolder(folder)
}

// withoutPath takes the path off an error: that of the hidden folder tells nobody anything.
func withoutPath(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	return err
}

func writeFile(folder string, f File) (err error) {
	if f.Name != filepath.Base(f.Name) || !filepath.IsLocal(f.Name) || f.Name == "." {
		return errors.New("not a plain file name")
	}
	out, err := os.OpenFile(filepath.Join(folder, f.Name), os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, out.Close()) }()
	buffer := bufio.NewWriter(out)
	if err := f.Write(buffer); err != nil {
		return err
	}
	if err := buffer.Flush(); err != nil {
		return err
	}
	return out.Sync()
}

// rename is os.Rename, named so that a test can make the last step fail.
var rename = os.Rename

// moveIntoPlace puts building where target is. What stood there steps aside first and
// comes back if the move fails.
func moveIntoPlace(building, target string) error {
	parent, name := filepath.Split(target)
	if _, err := os.Lstat(target); errors.Is(err, fs.ErrNotExist) {
		if err := rename(building, target); err != nil {
			return fmt.Errorf("results folder: %w", err)
		}
		return syncFolder(parent)
	}
	aside, err := os.MkdirTemp(parent, hiddenName(target, oldMark)+"*")
	if err != nil {
		return fmt.Errorf("results folder: %w", err)
	}
	old := filepath.Join(aside, name)
	if err := rename(target, old); err != nil {
		return errors.Join(fmt.Errorf("results folder: %w", err), os.Remove(aside))
	}
	if err := rename(building, target); err != nil {
		// Remove, not RemoveAll: if the old results cannot go back, they stay where they are.
		return errors.Join(fmt.Errorf("results folder: %w", err), os.Rename(old, target), os.Remove(aside))
	}
	return errors.Join(syncFolder(parent), os.RemoveAll(aside))
}

// syncFolder flushes a folder's entries; Windows has no such call.
func syncFolder(path string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(d.Sync(), d.Close())
}
