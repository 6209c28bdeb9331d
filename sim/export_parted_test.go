package sim

import (
	"context"
	"fmt"
	"reflect"
)

// PartedStrays names what in a fork that goes its own way still marches by its winter's sky; the undisturbed ground
// and the case, which are only read by rows, apart.
func PartedStrays(k *Case) ([]string, error) {
	g, err := undisturbed(context.Background(), k, Settings{})
	if err != nil {
		return nil, err
	}
	w, err := newWinter(k, Settings{}, g)
	if err != nil {
		return nil, err
	}
	f := &fork{}
	f.take(w, 0, 0)
	f.w.part()
	var strays []string
	for i, c := range w.line.cells {
		if c.even != nil && c.even == f.w.line.cells[i].even {
			strays = append(strays, fmt.Sprintf("what cell %d keeps of even flow is the winter's", i))
		}
	}
	seen := map[uintptr]bool{}
	var walk func(v reflect.Value, path string)
	walk = func(v reflect.Value, path string) {
		switch v.Kind() {
		case reflect.Pointer:
			if v.IsNil() || seen[v.Pointer()] || v.Type() == reflect.TypeFor[*grounds]() || v.Type() == reflect.TypeFor[*Case]() {
				return
			}
			seen[v.Pointer()] = true
			if v.Pointer() == reflect.ValueOf(w.sky).Pointer() {
				strays = append(strays, fmt.Sprintf("%s is the winter's sky", path))
			}
			walk(v.Elem(), path)
		case reflect.Struct:
			for i := range v.NumField() {
				walk(v.Field(i), path+"."+v.Type().Field(i).Name)
			}
		case reflect.Slice, reflect.Array:
			for i := range v.Len() {
				walk(v.Index(i), path+"[]")
			}
		}
	}
	walk(reflect.ValueOf(f.w), "winter")
	return strays, nil
}
