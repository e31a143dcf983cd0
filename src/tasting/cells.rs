//! A table of comma-separated values (RFC 4180) as cells that know their places, so that any fault can be shown where it
//! stands.

/// A cell, or a fault, of a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Cell {
    /// What it holds, without its quotes.
    pub text: String,
    /// Line, from 1.
    pub line: usize,
    /// Column in Unicode scalars, from 1.
    pub column: usize,
    /// Length in Unicode scalars, quotes included.
    pub width: usize,
}

/// A table: its rows with their cells, empty lines left out.
#[derive(Debug, Default)]
pub(super) struct Cells {
    pub rows: Vec<Vec<Cell>>,
    /// Cells whose quotes do not close, or that go on behind the closing quote, with what is wrong.
    pub faults: Vec<(Cell, &'static str)>,
}

/// What separates the cells: of comma, semicolon and tabulator the one that stands most often in the first line, since
/// spreadsheets write any of them.
pub(super) fn separator(text: &str) -> char {
    let first = text.lines().next().unwrap_or_default();
    let often = |one: char| first.matches(one).count();
    let mut best = ',';
    for other in [';', '\t'] {
        if often(other) > often(best) {
            best = other;
        }
    }
    best
}

struct Reader<'t> {
    characters: std::iter::Peekable<std::str::Chars<'t>>,
    line: usize,
    column: usize,
}

impl Reader<'_> {
    /// The next character; the end of a line is one, however it is written.
    fn next(&mut self) -> Option<char> {
        let mut next = self.characters.next()?;
        if next == '\r' {
            self.characters.next_if_eq(&'\n');
            next = '\n';
        }
        if next == '\n' {
            self.line += 1;
            self.column = 1;
        } else {
            self.column += 1;
        }
        Some(next)
    }

    fn peek(&mut self) -> Option<char> {
        self.characters.peek().copied()
    }

    /// One cell, up to its separator or the end of its line, and what is wrong with it.
    fn cell(&mut self, separator: char) -> (Cell, Option<&'static str>) {
        let (line, column) = (self.line, self.column);
        let (mut text, mut width, mut fault) = (String::new(), 0, None);
        let quoted = self.peek() == Some('"');
        if quoted {
            self.next();
            width += 1;
            fault = Some("a quote that is not closed");
            while let Some(next) = self.next() {
                width += 1;
                if next != '"' {
                    text.push(next);
                } else if self.peek() == Some('"') {
                    self.next();
                    width += 1;
                    text.push('"');
                } else {
                    fault = None;
                    break;
                }
            }
        }
        while let Some(next) = self.peek() {
            if next == separator || next == '\n' || next == '\r' {
                break;
            }
            if quoted && fault.is_none() && !next.is_whitespace() {
                fault = Some("text behind the closing quote");
            }
            text.push(next);
            self.next();
            width += 1;
        }
        let width = width.max(1);
        let text = text.trim().to_owned();
        let cell = Cell {
            text,
            line,
            column,
            width,
        };
        (cell, fault)
    }
}

/// The cells of a table.
pub(super) fn cells(text: &str, separator: char) -> Cells {
    let mut reader = Reader {
        characters: text.chars().peekable(),
        line: 1,
        column: 1,
    };
    let mut cells = Cells::default();
    while reader.peek().is_some() {
        let mut row = Vec::new();
        loop {
            let (cell, fault) = reader.cell(separator);
            cells
                .faults
                .extend(fault.map(|fault| (cell.clone(), fault)));
            row.push(cell);
            if reader.peek() != Some(separator) {
                // The end of the line or of the text.
                reader.next();
                break;
            }
            reader.next();
        }
        if row.iter().any(|cell| !cell.text.is_empty()) {
            cells.rows.push(row);
        }
    }
    cells
}

#[cfg(test)]
mod tests {
    use super::{cells, separator};
    use pretty_assertions::assert_eq;
    use proptest::prelude::*;

    #[test]
    fn a_cell_knows_its_place_behind_quotes_and_wide_characters() {
        let table = cells("薄荷,\"a\nb\",c\n\n 1 ,\"\"\"\",", ',');
        let places: Vec<_> = table
            .rows
            .iter()
            .flatten()
            .map(|cell| (cell.text.as_str(), cell.line, cell.column, cell.width))
            .collect();
        assert_eq!(
            places,
            [
                ("薄荷", 1, 1, 2),
                ("a\nb", 1, 4, 5),
                ("c", 2, 4, 1),
                ("1", 4, 1, 3),
                ("\"", 4, 5, 4),
                ("", 4, 10, 1)
            ]
        );
    }

    #[test]
    fn faults_of_quoting_are_told_and_the_rest_is_read() {
        let table = cells("\"a\"b,c\nd,\"e\n", ',');
        let faults: Vec<_> = table
            .faults
            .iter()
            .map(|(cell, fault)| (cell.line, cell.column, *fault))
            .collect();
        assert_eq!(
            faults,
            [
                (1, 1, "text behind the closing quote"),
                (2, 3, "a quote that is not closed")
            ]
        );
        assert_eq!(table.rows[0][1].text, "c");
    }

    #[test]
    fn the_separator_is_what_the_first_line_has_most_of() {
        assert_eq!(separator("a;b;c\n1,5;2;3"), ';');
        assert_eq!(separator("a\tb,c\td"), '\t');
        assert_eq!(separator("a"), ',');
    }

    proptest! {
        /// What the `csv` crate writes is read as the same cells, but for blanks round them and empty rows.
        #[test]
        fn it_reads_what_another_writer_writes(rows in prop::collection::vec(prop::collection::vec("[a-c ,;\"\n薄]{0,6}", 3), 0..6)) {
            let mut writer = csv::Writer::from_writer(Vec::new());
            for row in &rows {
                writer.write_record(row).unwrap();
            }
            let text = String::from_utf8(writer.into_inner().unwrap()).unwrap();
            let trimmed = |row: &Vec<String>| row.iter().map(|cell| cell.trim().to_owned()).collect::<Vec<_>>();
            let wanted: Vec<_> = rows.iter().map(trimmed).filter(|row| row.iter().any(|cell| !cell.is_empty())).collect();
            let table = cells(&text, ',');
            let found: Vec<Vec<_>> = table.rows.iter().map(|row| row.iter().map(|cell| cell.text.clone()).collect()).collect();
            prop_assert!(table.faults.is_empty());
            prop_assert_eq!(found, wanted);
        }

        #[test]
        fn no_text_makes_it_panic(text in "\\PC{0,40}|[\",\n\r;a]{0,40}") {
            let _ = cells(&text, separator(&text));
        }
    }
}
