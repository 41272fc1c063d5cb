//! Numbers as spreadsheets of different countries write them.

use std::borrow::Cow;

/// Digits between the marks of thousands.
const GROUP: usize = 3;

/// Which mark parts the whole from the rest of a number in a list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Decimal {
    /// A point.
    Point,
    /// A comma.
    Comma,
}

impl Decimal {
    /// That of a list from its cells: a comma where one stands in a number that can be read in no other way.
    pub fn of<'a>(mut cells: impl Iterator<Item = &'a str>) -> Self {
        let decides = |run: &str| {
            let (commas, points) = (run.matches(',').count(), run.matches('.').count());
            let behind = run.len() - run.rfind(',').map_or(run.len(), |place| place + 1);
            commas == 1
                && match points {
                    0 => behind != GROUP || run.starts_with("0,"),
                    _ => run.rfind('.') < run.find(','),
                }
        };
        let found = cells.any(|cell| runs(cell).any(|(start, end)| decides(&cell[start..end])));
        if found { Self::Comma } else { Self::Point }
    }

    /// A cell with its numbers as the program writes them: a decimal point, and nothing between thousands.
    ///
    /// What can be read in two ways stays as it is, to be refused. A sum of money has at most two
    /// decimals, so that three digits behind its last mark are thousands.
    pub fn with_point(self, cell: &str, is_money: bool) -> Cow<'_, str> {
        let cell = match cell.contains(['\u{a0}', '\u{202f}', '’']) {
            true => Cow::Owned(cell.replace(['\u{a0}', '\u{202f}'], " ").replace('’', "'")),
            false => Cow::Borrowed(cell),
        };
        let mut found = String::new();
        let mut done = 0;
        for (start, end) in runs(&cell) {
            if let Some(number) = self.number(&cell[start..end], is_money) {
                found.push_str(&cell[done..start]);
                found.push_str(&number);
                done = end;
            }
        }
        if done == 0 {
            return cell;
        }
        found.push_str(&cell[done..]);
        Cow::Owned(found)
    }

    /// One number; none where it stays as it is.
    fn number(self, run: &str, is_money: bool) -> Option<String> {
        let (commas, points) = (run.matches(',').count(), run.matches('.').count());
        let one = |mark: char| {
            let behind = run.len() - run.find(mark)? - 1;
            let is_grouped = behind == GROUP && !run.starts_with('0');
            Some((is_grouped, run.replace(mark, ".")))
        };
        let without = |mark: char| {
            let whole = run.split(['.', ',']).collect::<Vec<_>>();
            let last = if commas > 0 && points > 0 { whole.len() - 1 } else { whole.len() };
            let groups = &whole[1..last];
            groups.iter().all(|group| group.len() == GROUP).then(|| run.replace(mark, ""))
        };
        match (commas, points) {
            (0, 0) => None,
            (1, 0) => match (one(',')?, self) {
                ((true, _), _) if is_money => without(','),
                // Thousands or decimals: nobody can tell.
                ((true, _), Self::Point) => None,
                ((_, decimal), _) => Some(decimal),
            },
            (0, 1) => match (one('.')?, self) {
                ((true, _), Self::Comma) => without('.'),
                ((true, _), Self::Point) if is_money => without('.'),
                _ => None,
            },
            (_, 0) => without(','),
            (0, _) => without('.'),
            _ if run.rfind(',') > run.rfind('.') => {
                (commas == 1).then(|| without('.')).flatten().map(|run| run.replace(',', "."))
            }
            _ => (points == 1).then(|| without(',')).flatten(),
        }
    }
}

/// Where numbers begin and end in a cell: digits with points and commas between them.
fn runs(cell: &str) -> impl Iterator<Item = (usize, usize)> {
    let bytes = cell.as_bytes();
    let mut place = 0;
    std::iter::from_fn(move || {
        let start = place + bytes[place..].iter().position(u8::is_ascii_digit)?;
        let is_inside = |at: &usize| {
            bytes[*at].is_ascii_digit()
                || (matches!(bytes[*at], b'.' | b',')
                    && bytes.get(at + 1).is_some_and(u8::is_ascii_digit))
        };
        let end = (start..bytes.len()).find(|at| !is_inside(at)).unwrap_or(bytes.len());
        place = end;
        Some((start, end))
    })
}

#[cfg(test)]
mod tests {
    use super::Decimal::{Comma, Point};
    use super::*;

    #[test]
    fn practice_numbers_of_several_countries_read_alike() {
        for (decimal, written, read) in [
            (Comma, "300,5 mm", "300.5 mm"),
            (Point, "300,5 mm", "300.5 mm"),
            (Comma, "0,125", "0.125"),
            (Comma, "1.250,50", "1250.50"),
            (Point, "1,250.50", "1250.50"),
            (Comma, "1.250", "1250"),
            (Point, "1.250", "1.250"),
            (Comma, "1,250", "1.250"),
            (Point, "1.250.000", "1250000"),
            (Point, "17 3/4 in", "17 3/4 in"),
            (Comma, "450 x 230, stainless", "450 x 230, stainless"),
            // It can be read in two ways, and is refused where it is read.
            (Point, "1,250 mm", "1,250 mm"),
            (Point, "1,25,0 mm", "1,25,0 mm"),
        ] {
            assert_eq!(decimal.with_point(written, false), read, "{decimal:?} {written}");
        }
        for (decimal, written, read) in [
            (Point, "1,250", "1250"),
            (Comma, "1,250", "1250"),
            (Point, "1.250", "1250"),
            (Comma, "410,50", "410.50"),
            (Point, "410.5", "410.5"),
        ] {
            assert_eq!(decimal.with_point(written, true), read, "{decimal:?} {written}");
        }
    }

    #[test]
    fn practice_the_cells_tell_which_mark_is_meant() {
        assert_eq!(Decimal::of(["300", "1.250", "410,50"].into_iter()), Comma);
        assert_eq!(Decimal::of(["1.250,00"].into_iter()), Comma);
        assert_eq!(Decimal::of(["0,125"].into_iter()), Comma);
        assert_eq!(
            Decimal::of(["300", "1,250", "1,250.00", "450 x 230, steel"].into_iter()),
            Point
        );
    }
}
