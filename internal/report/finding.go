// Package report holds findings: what a stage noticed about a result that it
// could still give. An error is something else (there is no result), and a
// panic is something else again (a bug of ours). Stages return findings as
// values; only the command line and the page print them.
package report

import "fmt"

// Level says how much a finding weighs.
type Level int

const (
	// Note tells the maker something useful; nothing is wrong.
	Note Level = iota
	// Doubt is a number or a choice that may be wrong and should be looked at
	// before foam is cut.
	Doubt
	// Problem must be mended before foam is cut; `check` fails on it.
	Problem
)

// String is the word that a maker reads.
func (l Level) String() string {
	switch l {
	case Note:
		return "note"
	case Doubt:
		return "doubt"
	default:
		return "problem"
	}
}

// Finding is one thing that a stage noticed, in the maker's words.
type Finding struct {
	Level   Level  `json:"level"`
	Subject string `json:"subject"`           // what it is about: "wrist girth, left", "helm"
	Where   string `json:"where,omitempty"`   // place in the maker's file: "wearer.yaml:14"
	Said    string `json:"said"`              // what was seen, as a full sentence
	Perhaps string `json:"perhaps,omitempty"` // what was probably meant, or what to do about it
}

// String is the finding on one line, as the command line prints it.
func (f Finding) String() string {
	s := f.Level.String() + ": "
	if f.Where != "" {
		s = f.Where + ": " + s
	}
	if f.Subject != "" {
		s += f.Subject + ": "
	}
	s += f.Said
	if f.Perhaps != "" {
		s += " " + f.Perhaps
	}
	return s
}

// Worst is the highest level among findings, Note when there are none.
func Worst(fs []Finding) Level {
	worst := Note
	for _, f := range fs {
		worst = max(worst, f.Level)
	}
	return worst
}

// Notef, Doubtf and Problemf make a finding of their level about a subject.
func Notef(subject, format string, args ...any) Finding {
	return Finding{Level: Note, Subject: subject, Said: fmt.Sprintf(format, args...)}
}

// Doubtf makes a finding of level Doubt.
func Doubtf(subject, format string, args ...any) Finding {
	return Finding{Level: Doubt, Subject: subject, Said: fmt.Sprintf(format, args...)}
}

// Problemf makes a finding of level Problem.
func Problemf(subject, format string, args ...any) Finding {
	return Finding{Level: Problem, Subject: subject, Said: fmt.Sprintf(format, args...)}
}

// MarshalText writes the level as its word, so that scripts read "doubt".
func (l Level) MarshalText() ([]byte, error) { return []byte(l.String()), nil }
