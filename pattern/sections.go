package pattern

// section is what the lines under a heading are.
type section uint8

const (
	noSection section = iota
	secMaterials
	secYarn
	secHook
	secGauge
	secSize
	secAbbreviations
	secSpecial
	secNotes
	secTerms
	secSkill
	secAssembly
	secRows // "Pattern", "Instructions": rows follow, no piece is named
	secTitle
)

var sectionKinds = [...]HeaderKind{
	secMaterials: HeaderMaterials, secYarn: HeaderYarn, secHook: HeaderHook, secGauge: HeaderGauge, secSize: HeaderSize,
	secAbbreviations: HeaderAbbreviations, secSpecial: HeaderAbbreviations, secNotes: HeaderNote, secTerms: HeaderTerms,
	secSkill: HeaderSkill, secAssembly: HeaderAssembly, secRows: HeaderNote, secTitle: HeaderNote,
}

// sectionNames are headings that name no piece. The words are matched from
// the start of a line; a name ending in ":" counts only before a colon.
var sectionNames = map[string]section{
	"materials": secMaterials, "material": secMaterials, "supplies": secMaterials, "what you need": secMaterials, "what you'll need": secMaterials,
	"you will need": secMaterials, "you'll need": secMaterials, "notions": secMaterials, "tools": secMaterials, "materials needed": secMaterials, "materials and tools": secMaterials, "requirements": secMaterials, "stuffing:": secMaterials, "needle:": secMaterials, "eyes:": secMaterials,
	"yarn": secYarn, "yarns": secYarn, "yarn used": secYarn, "wool:": secYarn, "thread:": secYarn, "cotton:": secYarn, "yarn amounts": secYarn, "color:": secYarn, "colour:": secYarn, "colors": secYarn, "colours": secYarn, "colors:": secYarn, "colours:": secYarn, "yarn weight": secYarn, "color key": secYarn, "colour key": secYarn,
	"hook": secHook, "hooks": secHook, "hook size": secHook, "crochet hook": secHook,
	"gauge": secGauge, "tension": secGauge, "gauge swatch:": secGauge, "tension swatch:": secGauge,
	"size": secSize, "sizes": secSize, "finished size": secSize, "finished sizes": secSize, "finished measurements": secSize, "measurements": secSize, "dimensions": secSize, "to fit": secSize, "sizing": secSize, "finished dimensions": secSize, "approximate size": secSize,
	"abbreviations": secAbbreviations, "abbreviation": secAbbreviations, "abbreviations used": secAbbreviations, "abbrev": secAbbreviations, "abbreviations (us)": secAbbreviations, "stitches used": secAbbreviations, "stitches": secAbbreviations, "key": secAbbreviations, "stitch key": secAbbreviations, "glossary": secAbbreviations, "us abbreviations": secAbbreviations, "uk abbreviations": secAbbreviations, "stitch abbreviations": secAbbreviations, "abbreviation key": secAbbreviations, "legend": secAbbreviations, "stitches and abbreviations": secAbbreviations, "abbreviations and stitches": secAbbreviations, "crochet abbreviations": secAbbreviations, "abbreviations us": secAbbreviations, "abbreviations uk": secAbbreviations,
	"special stitches": secSpecial, "special stitch": secSpecial, "special stitches used": secSpecial, "stitch guide": secSpecial, "special abbreviations": secSpecial, "special abbreviation": secSpecial, "pattern stitches": secSpecial, "stitch definitions": secSpecial, "special terms": secSpecial, "stitch explanations": secSpecial, "stitch glossary": secSpecial, "special techniques": secSpecial, "special": secSpecial, "pattern stitch:": secSpecial, "special st": secSpecial, "special sts": secSpecial, "stitch notes": secSpecial,
	"notes": secNotes, "note": secNotes, "pattern notes": secNotes, "before you begin": secNotes, "before you start": secNotes, "tips": secNotes, "general notes": secNotes, "multiple": secNotes, "stitch multiple": secNotes, "nb": secNotes, "please note": secNotes, "notes on pattern": secNotes, "important": secNotes, "tip": secNotes, "techniques": secNotes, "safety": secNotes, "safety note": secNotes, "caution": secNotes, "warning": secNotes, "cautions": secNotes, "care": secNotes, "construction": secNotes, "designer notes": secNotes, "about": secNotes, "about this pattern": secNotes, "introduction": secNotes, "special notes": secNotes, "special instructions": secNotes,
	"terms": secTerms, "british terms": secTerms, "american terms": secTerms, "english terms": secTerms, "terms used": secTerms, "terminology": secTerms, "us terms": secTerms, "uk terms": secTerms, "written in": secTerms,
	"skill level": secSkill, "difficulty": secSkill, "level": secSkill, "skill": secSkill, "difficulty level": secSkill, "time": secSkill,
	"assembly": secAssembly, "finishing": secAssembly, "making up": secAssembly, "to make up": secAssembly, "to finish": secAssembly, "to assemble": secAssembly, "sewing": secAssembly, "sewing up": secAssembly, "putting it together": secAssembly, "blocking": secAssembly, "to complete": secAssembly, "construction and finishing": secAssembly, "make up": secAssembly, "putting together": secAssembly, "assembling": secAssembly, "finishing off": secAssembly, "joining the pieces": secAssembly, "face": secAssembly, "finishing touches": secAssembly, "all together": secAssembly, "sew together": secAssembly,
	"pattern": secRows, "instructions": secRows, "directions": secRows, "method": secRows, "the pattern": secRows, "pattern instructions": secRows, "crochet pattern": secRows, "written instructions": secRows, "written pattern": secRows, "how to make it": secRows, "to make": secRows, "let's begin": secRows, "begin:": secRows, "to begin": secRows, "steps": secRows, "how to": secRows, "rounds": secRows, "rows": secRows,
	"title:": secTitle, "name:": secTitle,
}

// setupNames are headings that name the start of a piece, not a piece.
var setupNames = map[string]bool{
	"begin": true, "start": true, "foundation": true, "ring": true, "base": true, "chain": true, "setup": true, "set up": true, "foundation chain": true,
	"to begin": true, "base chain": true, "beg": true, "beginning": true, "starting chain": true, "foundation ch": true, "magic ring": true, "start with": true, "to start": true, "cast on": true, "foundation ring": true, "center ring": true, "centre ring": true, "starting ring": true, "initial chain": true,
	"base ch": true, "beginning ring": true, "beg ch": true, "work": true,
}
