package live

import (
	"bytes"
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"halfturn/cmd/halfturn/findings"
	"halfturn/cmd/halfturn/guide"
	"halfturn/plotting"
)

// pageData is what the page itself is made of; all the rest comes with answers.
type pageData struct {
	Start        string // driveline to begin with, as JSON; "": none
	Cautions     []string
	Arrangements []choice
	Lessons      []choice
	Figures      []Figure // of one driveline
	Usual        int      // the first so many are shown unless others are chosen
}

// choice is a driveline to begin with.
type choice struct {
	ID, Name, About, See, Figure string
	File                         string // JSON
}

// usual are the figures that are shown unless others are chosen.
var usual = []string{"views", "speed", "vectors"}

// renderPage returns the page as it is served.
func renderPage(c Config) ([]byte, error) {
	data := pageData{
		Start:    string(c.File),
		Cautions: strings.Split(strings.TrimSpace(findings.Cautions), "\n\n"),
		Usual:    len(usual),
	}
	for _, name := range usual {
		f, err := c.figureNamed(name)
		if err != nil {
			return nil, err
		}
		data.Figures = append(data.Figures, f)
	}
	for _, f := range c.Figures {
		if f.Of == 1 && !slices.Contains(usual, f.Name) {
			data.Figures = append(data.Figures, f)
		}
	}
	for _, a := range guide.Arrangements {
		file, err := json.Marshal(a.File())
		if err != nil {
			return nil, err
		}
		data.Arrangements = append(data.Arrangements, choice{ID: a.ID, Name: a.Name, About: a.About, File: string(file)})
	}
	for _, l := range plotting.Lessons() {
		file, err := json.Marshal(lessonFile(l))
		if err != nil {
			return nil, err
		}
		class, ok := lessons[l.Name]
		if !ok {
			return nil, fmt.Errorf("lesson %s: the class has no question and no sliders for it", l.Name)
		}
		if _, err := c.figureNamed(class.figure); err != nil {
			return nil, fmt.Errorf("lesson %s: %w", l.Name, err)
		}
		data.Lessons = append(data.Lessons, choice{l.Name, l.Title, l.Ask, l.Text, class.figure, string(file)})
	}
	var b bytes.Buffer
	err := templates.ExecuteTemplate(&b, "page.html.tmpl", data)
	return b.Bytes(), err
}
