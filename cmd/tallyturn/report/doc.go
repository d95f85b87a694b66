// Package report writes a proof down: [Text] for people, [JSON] for programs.
//
// Both are pure functions of the proof, so the same pattern gives the same
// bytes everywhere. What the pattern says is only ever text here: bytes that
// could steer a terminal are shown as signs, never passed on.
package report
