package report

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"testing"
)

// A picture of few colours comes back as it was; of one with many, the frequent colours do and the others are close.
func TestPaletted(t *testing.T) {
	picture := image.NewRGBA(image.Rect(0, 0, 64, 64))
	for y := range 64 {
		for x := range 64 {
			picture.SetRGBA(x, y, color.RGBA{uint8(x) &^ 7, uint8(y) &^ 7, 200, 255}) // 64 colours
		}
	}
	check := func(within int) {
		t.Helper()
		var file bytes.Buffer
		if err := writePNG(&file, picture); err != nil {
			t.Fatal(err)
		}
		back, err := png.Decode(&file)
		if err != nil {
			t.Fatal(err)
		}
		for y := range 64 {
			for x := range 64 {
				want := picture.RGBAAt(x, y)
				got := color.RGBAModel.Convert(back.At(x, y)).(color.RGBA)
				for _, d := range []int{int(got.R) - int(want.R), int(got.G) - int(want.G), int(got.B) - int(want.B)} {
					if max(d, -d) > within {
						t.Fatalf("at %d, %d: %v, was %v", x, y, got, want)
					}
				}
			}
		}
	}
	check(0)
	for y := range 64 { // 320 more than there were, more than a palette holds, in steps that the eye hardly sees
		for x := range 5 {
			picture.SetRGBA(8*x, y, color.RGBA{uint8(8 * x), uint8(4 * y), 100, 255})
		}
	}
	check(5)
}
