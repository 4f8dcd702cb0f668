package survey_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"halfturn/kinematics/survey"
)

// In a bad file § marks, in the order of the file, where each fault is expected.
func TestReadFaults(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		file string
		want []string // path: value: want …
	}{
		// Text that is not JSON.
		{"empty", "§", []string{`empty file: want a driveline: { … }`}},
		{"blank", " \n §", []string{`empty file: want a driveline: { … }`}},
		{"cut off", "{\"shafts\": [\n  {}, {}§", []string{`unexpected end of file: want the rest: a quote, bracket or brace is still open`}},
		{"cut off in a text", `{"name": "ab§`, []string{`unexpected end of file: want the rest: a quote, bracket or brace is still open`}},
		{"comma too many", "{\"shafts\": [{}, {},\n §]}", []string{`unexpected ']': want one more entry behind the comma, or no comma`}},
		{"comma missing", "{\"rpm\": 100\n §\"shafts\": [{}, {}]}", []string{`unexpected '"': want a comma between two entries, a colon behind a field's name or a closing bracket`}},
		{"colon missing", `{"rpm" §100}`, []string{`unexpected '1': want a comma between two entries, a colon behind a field's name or a closing bracket`}},
		{"decimal comma", `{"rpm": 6,§1}`, []string{`unexpected '1': want a decimal point instead of the comma, as in 6.1`}},
		{"no digit before the point", `{"rpm": §.5}`, []string{`unexpected '.': want a number such as 6.1, -0.5 or 12`}},
		{"no digit behind the point", `{"rpm": 5.§}`, []string{`unexpected '}': want a number such as 6.1, -0.5 or 12`}},
		{"plus sign", `{"rpm": §+5}`, []string{`unexpected '+': want a number such as 6.1, -0.5 or 12`}},
		{"leading zero", `{"rpm": 0§6}`, []string{`unexpected '6': want a number such as 6.1, -0.5 or 12`}},
		{"NaN", `{"rpm": §NaN}`, []string{`unexpected 'N': want a number, a "text", a list [ … ] or an object { … }`}},
		{"negative infinity", `{"rpm": -§Infinity}`, []string{`unexpected 'I': want a number such as 6.1, -0.5 or 12`}},
		{"another kind of file", `n§ame,down,right`, []string{`unexpected 'a': want a driveline: { … }`}},
		{"bare name", `{§rpm: 5}`, []string{`unexpected 'r': want the name of a field in double quotes`}},
		{"single quotes", `{§'rpm': 5}`, []string{`unexpected '\'': want straight double quotes: "`}},
		{"typographic quotes", `{§“rpm”: 5}`, []string{`unexpected '“': want straight double quotes: "`}},
		{"comment", "{\"rpm\": 5, §// rev/min\n \"shafts\": []}", []string{`unexpected '/': want no comments, only the field "note"`}},
		{"line end in a text", "{\"name\": \"Bärbel§\n\"}", []string{`unexpected '\n': want no line end or tab inside a text: close it with a double quote`}},
		{"backslash", `{"name": "C:\§drive"}`, []string{`unexpected 'd': want \\ for a backslash in a text`}},
		{"hexadecimal escape", `{"name": "\u00e§rger"}`, []string{`unexpected 'r': want four hexadecimal digits behind \u`}},
		{"NaN in a list", `{"shafts": [{"down": [6.1, §NaN]}, {}]}`, []string{`unexpected 'N': want a number, a "text", a list [ … ] or an object { … }`}},
		{"comma missing in a list", `{"shafts": [{} §{}]}`, []string{`unexpected '{': want a comma between two entries, a colon behind a field's name or a closing bracket`}},
		{"nested past what the parser takes", strings.Repeat("[", 10000) + "§[", []string{`unexpected '[': want less deeply nested lists and objects`}},
		{"trailing data", "{\"shafts\": [{}, {}]}\n\n§{}", []string{`unexpected '{': want nothing more after the end of the driveline`}},
		{"not UTF-8", "{\"name\": \"§\xe4\"}", []string{`a byte that is not UTF-8: want a file saved as UTF-8`}},
		{"too deep", `{"x": ` + strings.Repeat("[", 15) + "§[" + strings.Repeat("]", 16) + "}", []string{`nested 17 deep: want at most 16`}},

		// Values by themselves.
		{"not an object", `§[1, 2]`, []string{`a list: want an object { … }`}},
		{"no shafts", "\n §{}", []string{`shafts: missing: want a list [ … ]`}},
		{"one shaft", `{"shafts": §[{"down": 0}]}`, []string{`shafts: 1 entry: want 2 to 64`}},
		{"too many shafts", `{"shafts": §[{}` + strings.Repeat(", {}", 64) + `]}`, []string{`shafts: 65 entries: want 2 to 64`}},
		{"misspelt", `{"shafts": [{§"dwon": 3, §"Length": 5}, {"down": 0, §"colour": "red"}]}`, []string{
			`shafts[0].dwon: unknown field: want "down", perhaps`,
			`shafts[0].Length: unknown field: want "length", perhaps`,
			`shafts[1].colour: unknown field: want one of "name", "down", "incline", "turned", "right", "offset", "length", "bearing", "phase"`,
		}},
		{"the other way", `{§"speed": 60, "shafts": [{§"up": 3, §"left": 1}, {"down": 0, §"slope": 4}], "road": §{§"tire": "235/60R16", "final_drive": 4}}`, []string{
			`speed: unknown field: want "rpm", or "speed_kmh" or "speed_mph" in "road"`,
			`shafts[0].up: unknown field: want a negative "down"`,
			`shafts[0].left: unknown field: want a negative "right"`,
			`shafts[1].slope: unknown field: want "down" or "incline"`,
			`road: none of tyre, tyre_diameter, rolling_radius: want one of them`,
			`road.tire: unknown field: want "tyre"`,
		}},
		{"strange name of a field", `{§"a.b\u0007": 1, "shafts": [{"down": 0}, {"down": 0}]}`, []string{
			`"a.b\a": unknown field: want one of "$schema", "name", "note", "units", "rpm", "torque_nm", "reading_error_deg", "gauge_error_deg", "gauge_resolution_deg", "phase_error_deg", "tape_error", "shafts", "joints", "road", "limits", "adjust", "poses"`,
		}},
		{"twice", "{\"rpm\": 100,\n\"shafts\": [{\"down\": 0}, {\"down\": 0}], §\"rpm\": 200}", []string{`rpm: given twice: want it once, as on line 1`}},
		{"twice, escaped", `{"rpm": 100, "shafts": [{"down": 0}, {"down": 0}], §"r\u0070m": 200}`, []string{`rpm: given twice: want it once, as on line 1`}},
		{"text for a number", `{"rpm": §"2800", "shafts": [{"down": §"6,1"}, {"down": §"steep"}]}`, []string{
			`rpm: "2800": want a number; write 2800 without quotes`,
			`shafts[0].down: "6,1": want a number or a list of readings; write 6.1 with a decimal point and without quotes`,
			`shafts[1].down: "steep": want a number or a list of readings`,
		}},
		{"null", `{"rpm": §null, "shafts": [{"down": 0}, §null]}`, []string{
			`rpm: null: want a number; leave the field out when there is none`,
			`shafts[1]: null: want an object { … }`,
		}},
		{"wrong types", `{"name": §7, "note": §[], "rpm": §{}, "shafts": [{"down": §true}, {"down": 0}], "joints": §{}, "road": §1, "units": §25.4}`, []string{
			`name: 7: want a text in double quotes`,
			`note: a list: want a text in double quotes`,
			`rpm: an object: want a number`,
			`shafts[0].down: true: want a number or a list of readings`,
			`joints: an object: want a list [ … ]`,
			`road: 1: want an object { … }`,
			`units: 25.4: want one of "mm", "in"`,
		}},
		{"too large a number", `{"rpm": §1e999, "shafts": [{"down": §-1e999}, {"down": 0}]}`, []string{
			`rpm: 1e999: want a speed above 0 and at most 100000 rpm`,
			`shafts[0].down: -1e999: want a slope between -90 and 90 deg`,
		}},
		{"out of range", `{"rpm": §0, "reading_error_deg": §-0.1, "tape_error": §-1, "units": "in",
			"shafts": [{"down": §95, "length": §-3}, {"down": [6.1, §90]}, {"down": 0, "right": §-90, "length": §0}]}`, []string{
			`rpm: 0 rpm: want a speed above 0 and at most 100000 rpm`,
			`reading_error_deg: -0.1 deg: want a half-width from 0 to 45 deg`,
			`tape_error: -1 in: want a half-width from 0 to 1000 in`,
			`shafts[0].down: 95 deg: want a slope between -90 and 90 deg; read on a flange face? Then enter -5 deg, as along the shaft`,
			`shafts[0].length: -3 in: want a length from 0.001 to 1000000 in`,
			`shafts[1].down[1]: 90 deg: want a slope between -90 and 90 deg; read on a flange face? Then enter 0 deg, as along the shaft`,
			`shafts[2].right: -90 deg: want a heading between -90 and 90 deg`,
			`shafts[2].length: 0 in: want a length from 0.001 to 1000000 in`,
		}},
		{"a column is a character", `{"name": "größer ½", "rpm": §-1, "shafts": [{"down": 0}, {"down": 0}]}`, []string{
			`rpm: -1 rpm: want a speed above 0 and at most 100000 rpm`,
		}},
		{"no readings", `{"shafts": [{"down": §[]}, {"down": 0}]}`, []string{`shafts[0].down: 0 entries: want 1 to 100`}},
		{"unknown words", `{"units": §"cm", "shafts": [{"down": 0}, {"down": 0}], "joints": [{"kind": §"hooke"}], "limits": {"set": §"mild"}}`, []string{
			`units: "cm": want one of "mm", "in"`,
			`joints[0].kind: "hooke": want one of "cardan", "constant-velocity", "double-cardan"`,
			`limits.set: "mild": want one of "light-vehicle", "road-strict", "heavy-road", "machinery", "slow-heavy"`,
		}},
		{"blank texts", `{"name": §" ", "units": §"", "shafts": [{"down": 0, "name": §""}, {"down": 0}]}`, []string{
			`name: " ": want a text that is not blank`,
			`units: "": want one of "mm", "in"`,
			`shafts[0].name: "": want a text that is not blank`,
		}},
		{"control characters", `{"name": §"red \u001b[31m", "note": §"bell \u0007", "shafts": [{"down": 0, "name": §"two\nlines"}, {"down": 0}]}`, []string{
			`name: "red \x1b[31m": want a text without line ends, tabs and other control characters`,
			`note: "bell \a": want a text without control characters other than line ends and tabs`,
			`shafts[0].name: "two\nlines": want a text without line ends, tabs and other control characters`,
		}},
		{"directions turned", `{"name": §"axle \u202e35.0\u202c", "note": §"\u2066", "shafts": [{"down": 0, "name": §"\u2069"}, {"down": 0, "name": "שלום\u200e"}]}`, []string{
			`name: "axle \u202e35.0\u202c": want a text without line ends, tabs and other control characters`,
			`note: "\u2066": want a text without control characters other than line ends and tabs`,
			`shafts[0].name: "\u2069": want a text without line ends, tabs and other control characters`,
		}},
		{"long text", `{"units": §"` + strings.Repeat("m", 1000) + `", "name": §"` + strings.Repeat("ö", 101) + `", "shafts": [{"down": 0}, {"down": 0}]}`, []string{
			`units: "` + strings.Repeat("m", 40) + `…": want one of "mm", "in"`,
			`name: "` + strings.Repeat("ö", 40) + `…": want a text of at most 100 characters`,
		}},

		// Shafts and joints together.
		{"same names", `{"shafts": [{"down": 0, "name": "a"}, {"down": 0, "name": §"a"}, {"down": 0, "name": "shaft 4"}, §{"down": 0}], "joints": [{"name": "j"}, {}, {"name": §"j"}]}`, []string{
			`shafts[1].name: "a": want a name of its own, not that of shafts[0]`,
			`shafts[3].name: "shaft 4": want a name of its own, not that of shafts[2]`,
			`joints[2].name: "j": want a name of its own, not that of joints[0]`,
		}},
		{"down and incline", `{"shafts": [{"down": 1, "incline": §1}, {"down": 0}]}`, []string{
			`shafts[0].incline: given beside down: want only one of down, incline, turned`,
		}},
		{"slopes and headings in two ways", `{"shafts": [{"turned": §[1, 2], "down": §95, "incline": §3}, {"down": 0, "length": 9, "right": 0, "offset": §0}]}`, []string{
			`shafts[0].turned: given beside down: want only one of down, incline, turned`,
			`shafts[0].down: 95 deg: want a slope between -90 and 90 deg; read on a flange face? Then enter -5 deg, as along the shaft`,
			`shafts[0].incline: given beside down: want only one of down, incline, turned`,
			`shafts[1].offset: given beside right: want only one of right, offset`,
		}},
		{"no slope", `{"shafts": [§{}, §{"name": "b", "right": 0}, {"down": 0}], "poses": [{"name": "droop", "shafts": [{"name": "b", "right": 3}]}]}`, []string{
			`shafts[0]: no slope: want down, incline or turned, 0 where the shaft is level`,
			`shafts[1]: no slope: want down, incline or turned, 0 where the shaft is level`,
		}},
		{"gauge turned", `{"shafts": [{"turned": §3}, {"turned": §[3]}, {"turned": §[1, 2, 3]}, {"turned": [1, §90]}], "gauge_error_deg": §5.1, "gauge_resolution_deg": §0}`, []string{
			`shafts[0].turned: 3: want a list [ … ]`,
			`shafts[1].turned: 1 entry: want 2`,
			`shafts[2].turned: 3 entries: want 2`,
			`shafts[3].turned[1]: 90 deg: want a slope between -90 and 90 deg; read on a flange face? Then enter 0 deg, as along the shaft`,
			`gauge_error_deg: 5.1 deg: want a half-width from 0 to 5 deg`,
			`gauge_resolution_deg: 0 deg: want a step above 0 and at most 5 deg`,
		}},
		{"offsets", `{"shafts": [{"down": 0, "offset": §3}, {"down": 60, "length": 500, "offset": -499}, {"incline": 60, "length": 500, "offset": §-250.1},
			{"down": 0, "length": 500, "offset": §[500, 501]}, {"down": 0, "length": §0, "offset": 3}, {"down": 0}], "poses": [
			{"name": "a", "shafts": [{"name": "shaft 6", "offset": §5}, {"name": "shaft 2", "incline": §61}, {"name": "shaft 5", "down": 3}]}]}`, []string{
			`shafts[0].offset: 3 mm sideways: want the length of the shaft beside it`,
			`shafts[2].offset: -250.1 mm sideways: want less than the shaft reaches, 250 mm`,
			`shafts[3].offset: 500.5 mm sideways: want less than the shaft reaches, 500 mm`,
			`shafts[4].length: 0 mm: want a length from 0.001 to 1000000 mm`,
			`poses[0].shafts[0].offset: 5 mm sideways: want the length of the shaft beside it`,
			`poses[0].shafts[1].incline: -499 mm sideways: want less than the shaft reaches, 242.4 mm`,
		}},
		{"bearings", `{"torque_nm": §0, "shafts": [{"down": 0, "bearing": §1}, {"down": 0, "length": 500, "bearing": §501}, {"down": 0, "bearing": §-1}, {"down": 0, "bearing": 9}, {"down": 0}]}`, []string{
			`torque_nm: 0 N·m: want a torque above 0 and at most 1000000 N·m`,
			`shafts[0].bearing: 1 mm: want no centre bearing on the first and the last shaft, which run in housings`,
			`shafts[1].bearing: 501 mm: want a place on the shaft, which is 500 mm long`,
			`shafts[2].bearing: -1 mm: want a distance from 0 to 1000000 mm`,
		}},
		{"phase of an end", `{"shafts": [{"down": 0, "phase": §0}, {"down": 0, "phase": 5}, {"down": 0, "phase": §90}]}`, []string{
			`shafts[0].phase: 0 deg: want no phase on the first and the last shaft, which have one yoke only`,
			`shafts[2].phase: 90 deg: want no phase on the first and the last shaft, which have one yoke only`,
		}},
		{"number of joints", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0}], "joints": §[{}]}`, []string{
			`joints: 1 joint: want 2, one between each two of the 3 shafts`,
		}},
		{"synchronous bend", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}], "joints": [{"synchronous_deg": §10}, {"kind": "constant-velocity", "synchronous_deg": §0},
			{"kind": "double-cardan", "synchronous_deg": §90}, {"kind": "double-cardan", "synchronous_deg": 18}]}`, []string{
			`joints[0].synchronous_deg: 10 deg: want no such bend but on a double-cardan joint; this one is cardan`,
			`joints[1].synchronous_deg: 0 deg: want a bend between 0 and 90 deg`,
			`joints[2].synchronous_deg: 90 deg: want a bend between 0 and 90 deg`,
		}},
		{"companions", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}], "joints": [{"companion": §"joint 9"}, {"companion": §"joint 2"}, {"companion": §"joint 4"}, {"companion": §"joint 2"}]}`, []string{
			`joints[0].companion: "joint 9": want the name of another joint`,
			`joints[1].companion: "joint 2": want the name of another joint`,
			`joints[2].companion: "joint 4": want joints of one pair or group only; "joint 4" names "joint 2"`,
			`joints[3].companion: "joint 2": want joints of one pair or group only; "joint 3" names "joint 4"`,
		}},
		{"companion of two", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}], "joints": [{"companion": §"joint 3"}, {"companion": §"joint 3"}, {}]}`, []string{
			`joints[0].companion: "joint 3": want joints of one pair or group only; "joint 2" names "joint 3"`,
			`joints[1].companion: "joint 3": want joints of one pair or group only; "joint 1" names "joint 3"`,
		}},
		{"groups", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}], "joints": [{"companion": §["joint 2", "joint 9"]}, {"companion": §["joint 3", "joint 3"]},
			{"companion": §["joint 4", "joint 2"]}, {"companion": [§"", §7]}]}`, []string{
			`joints[0].companion: "joint 2", "joint 9": want the names of other joints, each once`,
			`joints[1].companion: "joint 3", "joint 3": want the names of other joints, each once`,
			`joints[2].companion: "joint 4", "joint 2": want joints of one pair or group only; "joint 1" names "joint 2", "joint 9"`,
			`joints[3].companion[0]: "": want a text that is not blank`,
			`joints[3].companion[1]: 7: want a text in double quotes`,
		}},
		{"companions in a ring", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}], "joints": [{"companion": §"joint 2"}, {"companion": §"joint 3"}, {"companion": §"joint 1"}]}`, []string{
			`joints[0].companion: "joint 2": want joints of one pair or group only; "joint 2" names "joint 3"`,
			`joints[1].companion: "joint 3": want joints of one pair or group only; "joint 1" names "joint 2"`,
			`joints[2].companion: "joint 1": want joints of one pair or group only; "joint 1" names "joint 2"`,
		}},
		{"companions of other kinds", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}, {"down": 0}], "joints": [{"companion": §"joint 2"}, {"kind": "constant-velocity"}, {"kind": "double-cardan", "companion": §"joint 4"}, {}]}`, []string{
			`joints[0].companion: "joint 2": want Cardan joints; "joint 2" is constant-velocity`,
			`joints[2].companion: "joint 4": want Cardan joints; "joint 3" is double-cardan`,
		}},
		{"right angle", `{"shafts": [{"down": 45}, §{"down": -45}, {"down": -45}]}`, []string{
			`shafts[1]: 90 deg at "joint 1": want a working angle below 90 deg`,
		}},
		{"flange faces", `{"shafts": [{"down": §93}, {"down": 3}, §{"down": -87}]}`, []string{
			`shafts[0].down: 93 deg: want a slope between -90 and 90 deg; read on a flange face? Then enter -3 deg, as along the shaft`,
			`shafts[2]: 90 deg at "joint 2": want a working angle below 90 deg; "shaft 3" at -87 deg: read on a flange face? Then enter -3 deg, as along the shaft`,
		}},
		{"bend beside another fault", `{"rpm": §-1, "shafts": [{"down": 60}, §{"down": -60}, {"down": §120}]}`, []string{
			`rpm: -1 rpm: want a speed above 0 and at most 100000 rpm`,
			`shafts[1]: 120 deg at "joint 1": want a working angle below 90 deg; "shaft 1" at 60 deg: read on a flange face? Then enter 30 deg, as along the shaft`,
			`shafts[2].down: 120 deg: want a slope between -90 and 90 deg; read on a flange face? Then enter -30 deg, as along the shaft`,
		}},

		// Positions.
		{"some positions", `{"shafts": [{"down": 0}, {}, {"down": 0}], "joints": [{"at": {"along": 0, "right": 0, "down": 0}}, §{}]}`, []string{
			`joints[1].at: missing: want the position of every joint centre, or of none`,
		}},
		{"half a position", `{"shafts": [{"down": 0}, {"down": 0}], "joints": [{"at": §§{"along": 5}}]}`, []string{
			`joints[0].at.right: missing: want a number`,
			`joints[0].at.down: missing: want a number`,
		}},
		{"positions and slopes", `{"shafts": [{"down": 1}, {"down": §1, "right": §0, "length": §900}, {"down": 2, "length": 200}], "joints": [
			{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 900, "right": 0, "down": 50}}]}`, []string{
			`shafts[1].down: 1 deg: want none on a shaft between two joints with positions`,
			`shafts[1].right: 0 deg: want none on a shaft between two joints with positions`,
			`shafts[1].length: 900 mm: want none: the joint centres give it`,
		}},
		{"backwards", `{"units": "in", "shafts": [{"down": 0}, {}, {"down": 0}], "joints": [
			{"name": "front", "at": {"along": 40, "right": 0, "down": 0}}, §{"at": {"along": 40, "right": 5, "down": 0}}]}`, []string{
			`joints[1]: 40 in along: want a joint centre further along than that of "front" at 40 in`,
		}},
		{"one joint centre on another", `{"shafts": [{"down": 0}, {}, {}, {"down": 0}], "joints": [{"at": {"along": 0, "right": 0, "down": 0}},
			{"name": "near", "at": {"along": 0.001, "right": 0, "down": 0}}, §{"at": {"along": 0.0019, "right": 0, "down": 0}}]}`, []string{
			`joints[2]: 0.0019 mm along: want a joint centre further along than that of "near" at 0.001 mm`,
		}},
		{"joints that add up", `{"shafts": [{"down": 0}, {"down": 89.99999, "phase": 90}, §{"down": 0}]}`, []string{
			`shafts[2]: a chain that acts as one joint at 90 deg: want joints that add up to less than 90 deg`,
		}},

		// Road, limits, changes, poses.
		{"road", `{"rpm": §2000, "shafts": [{"down": 0}, {"down": 0}], "road": §{"speed_kmh": 90, "speed_mph": §55, "tyre": §"big", "rolling_radius": §330}}`, []string{
			`rpm: 2000 rpm: want rpm or a road speed, never both`,
			`road.final_drive: missing: want a number`,
			`road.speed_mph: given beside speed_kmh: want only one of speed_kmh, speed_mph`,
			`road.tyre: "big": want a size such as "235/60R16" or "31x10.5R15"; of another tyre, tyre_diameter or rolling_radius instead`,
			`road.rolling_radius: given beside tyre: want only one of tyre, tyre_diameter, rolling_radius`,
		}},
		{"road without a tyre", `{"shafts": [{"down": 0}, {"down": 0}], "road": §{"final_drive": 3.7}}`, []string{
			`road: none of tyre, tyre_diameter, rolling_radius: want one of them`,
		}},
		{"speed of the road", `{"shafts": [{"down": 0}, {"down": 0}], "road": §{"speed_kmh": 100, "rolling_radius": 0.34, "final_drive": 4}}`, []string{
			`road: 3120685 rpm of the shafts at this speed, tyre and final drive: want at most 100000 rpm`,
		}},
		{"size of nothing", `{"shafts": [{"down": 0}, {"down": 0}], "road": {"rolling_radius": §1e-150, "final_drive": 4}}`, []string{
			`road.rolling_radius: 1e-150 mm: want a length from 0.001 to 1000000 mm`,
		}},
		{"name of a set", `{"shafts": [{"down": 0}, {"down": 0}], "limits": §"road-strict", "poses": [{"name": "droop", "limits": §"mild"}]}`, []string{
			`limits: "road-strict": want an object such as {"set": "light-vehicle"}`,
			`poses[0].limits: "mild": want an object such as {"set": "light-vehicle"}`,
		}},
		{"limits", `{"shafts": [{"down": 0}, {"down": 0}], "limits": {"nonuniformity": §0, "odd_joint_max_deg": §"none", "working_angle_min_deg": null, §"working_angle_mix_deg": 1}}`, []string{
			`limits.nonuniformity: 0: want a limit above 0 and at most 1000000000`,
			`limits.odd_joint_max_deg: "none": want a number, or null to switch the limit off`,
			`limits.working_angle_mix_deg: unknown field: want "working_angle_min_deg", perhaps`,
		}},
		{"changes", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0}, {"down": 0, "name": "axle"}], "adjust": [
			{"change": "wedge", "on": §"shaft 1", "from": 3, "to": §-3, "step": 0.5},
			{"change": "bearing-height", "on": §"joint 3", "from": 0, "to": 1, "step": §-1},
			{"change": "clocking", "on": "shaft 2", "from": 0, "to": §400},
			{"change": §"paint", "on": "axle", "from": 0, "to": 1},
			{"change": "wedge", "on": "axle", "from": 0, "to": 1, "step": §0.0000999},
			§{"change": "wedge", "on": "axle", "from": 0, "to": 1},
			§§{"change": "length", "on": "shaft 2"}]}`, []string{
			`adjust[0].on: "shaft 1": want the name of the last shaft: "axle"`,
			`adjust[0].to: -3 deg: want no less than from, which is 3 deg`,
			`adjust[1].on: "joint 3": want the name of a joint between two others: "joint 2"`,
			`adjust[1].step: -1 mm: want a step from 0 to 1000000 mm`,
			`adjust[2].to: 400 deg: want a change from -360 to 360 deg`,
			`adjust[3].change: "paint": want one of "wedge", "bearing-height", "bearing-side", "mount", "clocking", "length"`,
			`adjust[4].step: 9.99e-05 deg: want at most 10000 steps between from and to`,
			`adjust[5]: the same change of the same part as adjust[4]: want it once`,
			`adjust[6].from: missing: want a number`,
			`adjust[6].to: missing: want a number`,
		}},
		{"change without a part", `{"shafts": [{"down": 0}, {"down": 0}], "adjust": [{"change": "bearing-height", "on": §"joint 1", "from": 0, "to": 9}]}`, []string{
			`adjust[0].on: "joint 1": want no bearing-height: there is no joint between two others`,
		}},
		{"poses", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0}], "poses": [
			{"name": "droop", "shafts": [{"name": §"shaft 9", "down": 3}, {"name": "shaft 1", "down": 1, "incline": §2}]},
			{"name": §"droop", "shafts": [§{"down": 3}, {"name": "shaft 3", "down": §91}, {"name": §"shaft 3"}]},
			{"name": "bump", "joints": [{"name": "joint 1", "at": §{"along": 0, "right": 0, "down": 0}}, §{"name": "joint 2"}, {"name": §"joint 7", "at": §{"along": 0, "right": 0, "down": 0}}]}]}`, []string{
			`poses[0].shafts[0].name: "shaft 9": want one of "shaft 1", "shaft 2", "shaft 3"`,
			`poses[0].shafts[1].incline: given beside down: want only one of down, incline, turned`,
			`poses[1].name: "droop": want a name of its own, not that of poses[0]`,
			`poses[1].shafts[0].name: missing: want a text in double quotes`,
			`poses[1].shafts[1].down: 91 deg: want a slope between -90 and 90 deg; read on a flange face? Then enter -1 deg, as along the shaft`,
			`poses[1].shafts[2].name: "shaft 3": want a name of its own, not that of poses[1].shafts[1]`,
			`poses[2].joints[0].at: a position: want none: the joints of the driveline have none`,
			`poses[2].joints[1].at: missing: want an object { … }`,
			`poses[2].joints[2].name: "joint 7": want one of "joint 1", "joint 2"`,
			`poses[2].joints[2].at: a position: want none: the joints of the driveline have none`,
		}},
		{"kinds of poses", `{"shafts": [{"down": 0}, {"down": 0}], "poses": [{"name": "a", "kind": §"droop", "rpm": §-1}, {"name": "b", "rpm": 0, "limits": {"nonuniformity": §0}}]}`, []string{
			`poses[0].kind: "droop": want one of "cruise", "load", "travel"`,
			`poses[0].rpm: -1 rpm: want a speed from 0 to 100000 rpm`,
			`poses[1].limits.nonuniformity: 0: want a limit above 0 and at most 1000000000`,
		}},
		{"geometry of poses", `{"shafts": [{"down": 0}, {"down": 0}, {"down": 0, "right": 60}], "poses": [
			{"name": "at an override", "shafts": [{"name": "shaft 1", "right": 89}, §{"name": "shaft 2", "right": -80}]},
			§{"name": "elsewhere", "shafts": [{"name": "shaft 2", "right": -60}]}]}`, []string{
			`poses[0].shafts[1]: 169 deg at "joint 1": want a working angle below 90 deg`,
			`poses[1]: 120 deg at "joint 2": want a working angle below 90 deg`,
		}},
		{"positions of poses", `{"shafts": [{"down": 0}, {}, {"down": 0}], "joints": [
			{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 900, "right": 0, "down": 0}}], "poses": [
			{"name": "a", "joints": [{"name": "joint 1", "at": {"along": 800, "right": 0, "down": 0}}, §{"name": "joint 2", "at": {"along": 700, "right": 0, "down": 0}}]},
			§{"name": "b", "joints": [{"name": "joint 1", "at": {"along": 1800, "right": 0, "down": 0}}]},
			{"name": "c", "shafts": [{"name": "shaft 2", "down": §1}]}]}`, []string{
			`poses[0].joints[1]: 700 mm along: want a joint centre further along than that of "joint 1" at 800 mm`,
			`poses[1]: 900 mm along: want a joint centre further along than that of "joint 1" at 1800 mm`,
			`poses[2].shafts[0].down: 1 deg: want none on a shaft between two joints with positions`,
		}},
		{"bearing beyond its shaft", `{"shafts": [{"down": 1}, {"down": 2, "length": 900, "bearing": §900.5}, {"down": 3}, {"down": 2}]}`, []string{
			`shafts[1].bearing: 900.5 mm: want a place on the shaft, which is 900 mm long`,
		}},
		{"bearing before its shaft", `{"shafts": [{"down": 1}, {"down": 2, "bearing": §-1}, {"down": 3}, {"down": 2}]}`, []string{
			`shafts[1].bearing: -1 mm: want a distance from 0 to 1000000 mm`,
		}},
		{"bearing on the last shaft", `{"shafts": [{"down": 1}, {"down": 2, "bearing": §5}]}`, []string{
			`shafts[1].bearing: 5 mm: want no centre bearing on the first and the last shaft, which run in housings`,
		}},
		{"bearing on the only shaft", `{"shafts": [{"down": 1}, {"down": 2, "bearing": §5}, {"down": 2}]}`, []string{
			`shafts[1].bearing: 5 mm: want one shaft between two joints without a centre bearing: with one on each, nothing tells which bears how much`,
		}},
		{"bearing on both shafts", `{"shafts": [{"down": 1}, {"down": 2, "bearing": 5}, {"down": 3, "bearing": §6}, {"down": 2}]}`, []string{
			`shafts[2].bearing: 6 mm: want one shaft between two joints without a centre bearing: with one on each, nothing tells which bears how much`,
		}},
		{"bearing on one of three", `{"shafts": [{"down": 1}, {"down": 2, "bearing": 5}, {"down": 3}, §{"down": 4}, {"down": 2}]}`, []string{
			`shafts[3].bearing: none: want a centre bearing on every shaft between two joints but one: a second one without is held by nothing`,
		}},
		{"bearing at the first joint", `{"shafts": [{"down": 1}, {"down": 2, "bearing": §0}, {"down": 3}, {"down": 2}]}`, []string{
			`shafts[1].bearing: 0 mm: want a place off the joint away from the shaft without a bearing, which else nothing holds`,
		}},
		{"bearing at the last joint", `{"shafts": [{"down": 1}, {"down": 2}, {"down": 3, "length": 700, "bearing": §700}, {"down": 2}]}`, []string{
			`shafts[2].bearing: 700 mm: want a place off the joint away from the shaft without a bearing, which else nothing holds`,
		}},
		{"bearing out of reach in a pose", `{"shafts": [{"down": 1}, {"bearing": 1000}, {}, {"down": 2}], "joints": [
			{"at": {"along": 0, "right": 0, "down": 0}}, {"at": {"along": 1000, "right": 0, "down": 30}}, {"at": {"along": 1900, "right": 0, "down": 60}}], "poses": [
			§{"name": "bump", "joints": [{"name": "joint 2", "at": {"along": 990, "right": 0, "down": 0}}]}]}`, []string{
			`poses[0]: "shaft 2" 990 mm long: want a length that reaches to its centre bearing, at 1000 mm`,
		}},
		{"no torque", `{"torque_nm": §0, "shafts": [{"down": 1}, {"down": 2}]}`, []string{
			`torque_nm: 0 N·m: want a torque above 0 and at most 1000000 N·m`,
		}},
		{"torque of coasting", `{"torque_nm": §-300, "shafts": [{"down": 1}, {"down": 2}]}`, []string{
			`torque_nm: -300 N·m: want a torque above 0 and at most 1000000 N·m`,
		}},
		{"too much torque", `{"torque_nm": §1000001, "shafts": [{"down": 1}, {"down": 2}]}`, []string{
			`torque_nm: 1000001 N·m: want a torque above 0 and at most 1000000 N·m`,
		}},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			file, places := unmark(test.file)
			s, err := survey.Read("drive.json", strings.NewReader(file))
			if err == nil {
				t.Fatalf("got no error and %+v", s)
			}
			got := strings.Split(err.Error(), "\n")
			if len(places) != len(test.want) {
				t.Fatalf("the test has %d marks for %d faults", len(places), len(test.want))
			}
			want := make([]string, len(test.want))
			for i, text := range test.want {
				want[i] = "drive.json:" + places[i] + ": " + text
			}
			if !slices.Equal(got, want) {
				t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
			}
			if s != nil {
				t.Errorf("got a driveline beside the error: %+v", s)
			}
		})
	}
}

// unmark returns the file without its marks and the places of the marks.
func unmark(marked string) (file string, places []string) {
	line, column := 1, 1
	for _, r := range marked {
		switch r {
		case '§':
			places = append(places, fmt.Sprintf("%d:%d", line, column))
			continue
		case '\n':
			line, column = line+1, 1
		default:
			column++
		}
	}
	return strings.ReplaceAll(marked, "§", ""), places
}
