package arch

import (
	"fmt"
	"path"
	"slices"
	"strings"
)

const module = "tasset/"

func rooms(list string) []string { return strings.Fields(list) }

// Check says what is wrong with a file's import in a sentence, or "" if the
// table allows it. Slashes separate the file's path below the module's root.
func Check(file, imported string) string {
	dir := path.Dir(file)
	room, ok := roomAt(dir)
	if !ok {
		return fmt.Sprintf("%s is in a folder that the table of rooms does not know; add it with what it may import and why", file)
	}
	switch {
	case strings.HasPrefix(imported, module):
		return checkOwn(room, file, strings.TrimPrefix(imported, module))
	case strings.Contains(strings.SplitN(imported, "/", 2)[0], "."):
		return checkLibrary(room, file, imported)
	}
	return ""
}

func roomAt(dir string) (Room, bool) {
	i := slices.IndexFunc(Rooms, func(r Room) bool { return r.Path == dir })
	if i < 0 {
		return Room{}, false
	}
	return Rooms[i], true
}

// checkOwn holds an import of the module's own to the table. A room's own
// outside test may import the room, and tests may use the tools.
func checkOwn(room Room, file, imported string) string {
	target, known := roomAt(imported)
	test := strings.HasSuffix(file, "_test.go")
	switch {
	case !known:
		return fmt.Sprintf("%s imports %s, which the table of rooms does not know", file, imported)
	case slices.Contains(room.May, imported), test && (imported == room.Path || target.Tool || excepted(room, imported)):
		return ""
	}
	return fmt.Sprintf("%s imports %s: %s", file, imported, room.Reason)
}

func excepted(room Room, imported string) bool {
	return slices.ContainsFunc(Exceptions, func(e Exception) bool { return e.Room == room.Path && e.Import == imported })
}

// checkLibrary holds an import of others to the most exact entry of the list.
func checkLibrary(room Room, file, imported string) string {
	best := -1
	for i, l := range Libraries {
		if under(imported, l.Path) && (best < 0 || len(l.Path) > len(Libraries[best].Path)) {
			best = i
		}
	}
	if best < 0 {
		return fmt.Sprintf("%s imports %s, which is not on the list of libraries; say there who may use it and why", file, imported)
	}
	l := Libraries[best]
	if slices.Contains(l.Rooms, room.Path) || strings.HasSuffix(file, "_test.go") && slices.Contains(l.Tests, room.Path) {
		return ""
	}
	return fmt.Sprintf("%s imports %s: %s", file, imported, l.Reason)
}

func under(p, root string) bool { return p == root || strings.HasPrefix(p, root+"/") }
