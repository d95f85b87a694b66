// Package timeline draws what was filmed: takes, the rows in them, the tries
// that are not used, and what happened on the way. [Text] draws it in letters,
// [SVG] as a picture.
//
// What is used and what is not is told by the stroke, and what happened by a
// sign, so that it can be told without colour.
package timeline
