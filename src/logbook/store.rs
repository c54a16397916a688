//! The file as a set of sheets: adding, reading, deleting. What is added is on the
//! disk when the call comes back.

use std::path::{Path, PathBuf};

use pumpwright_engine::entries::tries::{self, Names};
use pumpwright_engine::entries::{Id, Purpose, moment};
use pumpwright_engine::learner::{History, Response};
use pumpwright_screens::Draft;
use rusqlite::{Connection, OptionalExtension as _, Row, Transaction, TransactionBehavior, params};

use super::connect;
use super::schema::{self, Head, STEPS};
use super::sheet::{Sheet, sum};
use super::trouble::{Kind, Result, Trouble};

/// An open logbook.
#[derive(Debug)]
pub struct Logbook {
    path: PathBuf,
    pub(super) connection: Connection,
    notices: Vec<String>,
}

/// What became of sheets that were added.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Added {
    /// New ones.
    pub new: usize,
    /// Those that were there already.
    pub known: usize,
    /// Those whose id stood there with something else; the lesser of the two is kept.
    pub differing: usize,
}

/// What happens to a draft.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum DraftChange {
    /// It is kept, in place of what stood under its id.
    Keep(Draft),
    /// It goes.
    Drop(Id),
}

impl Logbook {
    /// Opens the file for writing, and makes it where there is none.
    ///
    /// # Errors
    /// A sentence that says what is wrong and what to do.
    pub fn open(path: &Path) -> Result<Self> {
        let (mut connection, notice) = connect::for_writing(path)?;
        let copy = schema::migrate(&mut connection, path, &STEPS)?;
        let copied = copy.map(|copy| {
            format!(
                "the logbook {} was brought to the form of this program; as it was before, it lies \
                 in {}",
                path.display(),
                copy.display()
            )
        });
        #[cfg(debug_assertions)]
        limit_for_a_test(&connection);
        Ok(Self {
            path: path.to_owned(),
            connection,
            notices: notice.into_iter().chain(copied).collect(),
        })
    }

    /// Opens a file that is there, for writing.
    ///
    /// # Errors
    /// As [`Logbook::open`], and where there is no such file.
    pub fn existing(path: &Path) -> Result<Self> {
        if let Err(error) = path.metadata() {
            return Err(Trouble::system(path, &error));
        }
        Self::open(path)
    }

    /// Opens a file that is there, to look at it: for reading alone, but one of an older
    /// schema is brought forward.
    ///
    /// # Errors
    /// As [`Logbook::existing`].
    pub fn there(path: &Path) -> Result<Self> {
        let connection = connect::for_reading(path)?;
        let head = Head::of(&connection).map_err(|error| Trouble::of(path, &error))?;
        head.allow(path, STEPS.len())?;
        if head.version < STEPS.len() {
            return Self::open(path);
        }
        Ok(Self {
            path: path.to_owned(),
            connection,
            notices: Vec::new(),
        })
    }

    /// Opens a file that is there, for reading alone. It must have the newest schema.
    ///
    /// # Errors
    /// As [`Logbook::existing`].
    pub fn reading(path: &Path) -> Result<Self> {
        let connection = connect::for_reading(path)?;
        let head = Head::of(&connection).map_err(|error| Trouble::of(path, &error))?;
        head.allow(path, STEPS.len())?;
        if head.version < STEPS.len() {
            let why = format!("its schema is {}, open it for writing first", head.version);
            return Err(Trouble::new(Kind::Failed, path, &why));
        }
        Ok(Self {
            path: path.to_owned(),
            connection,
            notices: Vec::new(),
        })
    }

    /// Where it lies.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// What there is to say since it was opened.
    pub fn notices(&self) -> &[String] {
        &self.notices
    }

    /// Closes it, and takes its log into the file.
    ///
    /// # Errors
    /// A sentence.
    pub fn close(self) -> Result<()> {
        let failed = self.failed();
        self.connection.close().map_err(|(_, error)| failed(error))
    }

    pub(super) fn failed(&self) -> impl Fn(rusqlite::Error) -> Trouble + use<> {
        let path = self.path.clone();
        move |error| Trouble::of(&path, &error)
    }

    /// Adds sheets and changes drafts, all or nothing, and waits for the disk.
    ///
    /// # Errors
    /// A sentence; then nothing of it is kept.
    pub fn add(&mut self, sheets: &[Sheet]) -> Result<Added> {
        self.write(sheets, "", &[], 0)
    }

    /// Adds sheets and changes a person's drafts, all or nothing, and waits for the
    /// disk. A draft with the id of a sheet goes with it.
    ///
    /// # Errors
    /// A sentence; then nothing of it is kept.
    pub fn write(
        &mut self,
        sheets: &[Sheet],
        person: &str,
        changes: &[DraftChange],
        now: i64,
    ) -> Result<Added> {
        let failed = self.failed();
        let immediate = TransactionBehavior::Immediate;
        let transaction = self.connection.transaction_with_behavior(immediate);
        let transaction = transaction.map_err(&failed)?;
        let mut added = Added::default();
        for sheet in sheets {
            add(&transaction, sheet, &mut added).map_err(&failed)?;
        }
        for change in changes {
            change_draft(&transaction, person, change, now).map_err(&failed)?;
        }
        transaction.commit().map_err(&failed)?;
        Ok(added)
    }

    /// What a person handed in, as the learner model reads it.
    ///
    /// # Errors
    /// A sentence.
    pub fn history(&self, person: &str) -> Result<History> {
        let sql = "SELECT id, at, zone, code, family, level, purpose, tries FROM responses \
                   WHERE person = ?1";
        let failed = self.failed();
        let mut statement = self.connection.prepare(sql).map_err(&failed)?;
        let mut rows = statement.query([person]).map_err(&failed)?;
        let (mut history, mut names) = (History::default(), Names::default());
        while let Some(row) = rows.next().map_err(&failed)? {
            let response = response(row, &mut names).map_err(&failed)?;
            let response = response
                .ok_or_else(|| Trouble::damaged(&self.path, "a response in it does not read"))?;
            history.add(response);
        }
        Ok(history)
    }

    /// The sheets of a person, or of everybody, in the order of their ids.
    ///
    /// # Errors
    /// A sentence, where one of them does not read.
    pub fn sheets(&self, person: Option<&str>) -> Result<Vec<Sheet>> {
        let sql = "SELECT payload, sum FROM sheets JOIN responses USING (id) \
                   WHERE ?1 IS NULL OR person = ?1 ORDER BY responses.id";
        self.read(sql, params![person])
    }

    /// The last sheets of a person, the latest first.
    ///
    /// # Errors
    /// A sentence, where one of them does not read.
    pub fn latest(&self, person: &str, count: u32) -> Result<Vec<Sheet>> {
        let sql = "SELECT payload, sum FROM sheets JOIN responses USING (id) \
                   WHERE person = ?1 ORDER BY at DESC, responses.id DESC LIMIT ?2";
        self.read(sql, params![person, count])
    }

    fn read(&self, sql: &str, with: &[&dyn rusqlite::ToSql]) -> Result<Vec<Sheet>> {
        let failed = self.failed();
        let mut statement = self.connection.prepare(sql).map_err(&failed)?;
        let mut rows = statement.query(with).map_err(&failed)?;
        let mut sheets = Vec::new();
        while let Some(row) = rows.next().map_err(&failed)? {
            let (payload, sum): (String, Vec<u8>) = row
                .get(0)
                .and_then(|payload| Ok((payload, row.get(1)?)))
                .map_err(&failed)?;
            sheets.push(sound(&payload, &sum).map_err(|why| Trouble::damaged(&self.path, &why))?);
        }
        Ok(sheets)
    }

    /// Everybody who has sheets here, with their number, in the order of the names.
    ///
    /// # Errors
    /// A sentence.
    pub fn persons(&self) -> Result<Vec<(String, usize)>> {
        let sql = "SELECT person, count(*) FROM responses GROUP BY person ORDER BY person";
        let failed = self.failed();
        let mut statement = self.connection.prepare(sql).map_err(&failed)?;
        let row = |row: &Row| Ok((row.get(0)?, row.get::<_, i64>(1)?));
        let rows = statement.query_map([], row).map_err(&failed)?;
        rows.map(|row| row.map(|(person, count)| (person, usize::try_from(count).unwrap_or(0))))
            .collect::<rusqlite::Result<_>>()
            .map_err(&failed)
    }

    /// The names of everybody who has sheets here, in their order.
    ///
    /// # Errors
    /// A sentence.
    pub fn names(&self) -> Result<Vec<String>> {
        let failed = self.failed();
        let mut statement = self
            .connection
            .prepare("SELECT DISTINCT person FROM responses")
            .map_err(&failed)?;
        let rows = statement.query_map([], |row| row.get(0)).map_err(&failed)?;
        let names: rusqlite::Result<Vec<String>> = rows.collect();
        let mut names = names.map_err(&failed)?;
        names.sort();
        Ok(names)
    }

    /// What a person has half written, the latest first.
    ///
    /// # Errors
    /// A sentence.
    pub fn drafts(&self, person: &str) -> Result<Vec<Draft>> {
        let sql = "SELECT id, kind, text FROM drafts WHERE person = ?1 ORDER BY at DESC, id DESC";
        let failed = self.failed();
        let mut statement = self.connection.prepare(sql).map_err(&failed)?;
        let mut rows = statement.query([person]).map_err(&failed)?;
        let mut drafts = Vec::new();
        while let Some(row) = rows.next().map_err(&failed)? {
            let read = || Ok::<_, rusqlite::Error>((row.get(0)?, row.get(1)?, row.get(2)?));
            let (id, kind, text): ([u8; 16], String, String) = read().map_err(&failed)?;
            drafts.push(Draft {
                id: id_of(id),
                kind,
                text,
            });
        }
        Ok(drafts)
    }

    /// Deletes everything of a person, so that nothing of it stays in the file; says
    /// how many sheets it was.
    ///
    /// # Errors
    /// A sentence; then nothing is deleted.
    pub fn delete(&mut self, person: &str) -> Result<usize> {
        let failed = self.failed();
        let immediate = TransactionBehavior::Immediate;
        let transaction = self.connection.transaction_with_behavior(immediate);
        let transaction = transaction.map_err(&failed)?;
        let gone = || -> rusqlite::Result<usize> {
            let of = "DELETE FROM sheets WHERE id IN (SELECT id FROM responses WHERE person = ?1)";
            transaction.execute(of, [person])?;
            transaction.execute("DELETE FROM drafts WHERE person = ?1", [person])?;
            transaction.execute("DELETE FROM responses WHERE person = ?1", [person])
        };
        let gone = gone().map_err(&failed)?;
        transaction.commit().map_err(&failed)?;
        // What was deleted still stands in the log until it is taken into the file.
        let taken_in = "PRAGMA wal_checkpoint(TRUNCATE)";
        self.connection
            .query_row(taken_in, [], |_| Ok(()))
            .map_err(&failed)?;
        Ok(gone)
    }
}

/// In a build for testing, and only where the environment asks for it, the file may
/// have so many pages: a test sees what a full disk does.
#[cfg(debug_assertions)]
fn limit_for_a_test(connection: &Connection) {
    let pages = std::env::var("PUMPWRIGHT_TEST_PAGES").ok();
    if let Some(pages) = pages.and_then(|pages| pages.parse::<u32>().ok()) {
        let _ = connection.query_row(&format!("PRAGMA max_page_count = {pages}"), [], |_| Ok(()));
    }
}

/// A payload whose sum is right and that reads.
pub(super) fn sound(payload: &str, stands: &[u8]) -> std::result::Result<Sheet, String> {
    if sum(payload.as_bytes()) != stands {
        return Err("a sheet in it is not as it was written".to_owned());
    }
    Sheet::read(payload).map_err(|why| format!("a sheet in it does not read: {why}"))
}

fn response(row: &Row, names: &mut Names) -> rusqlite::Result<Option<Response>> {
    let purpose: Option<Purpose> = Purpose::named(row.get_ref(6)?.as_str()?);
    let tries = tries::read(row.get_ref(7)?.as_str()?, names);
    let (Some(purpose), Some(tries)) = (purpose, tries) else {
        return Ok(None);
    };
    Ok(Some(Response {
        when: moment(row.get(1)?, row.get(2)?),
        id: u128::from_be_bytes(row.get(0)?),
        problem: row.get_ref(3)?.as_str()?.into(),
        family: names.of(row.get_ref(4)?.as_str()?),
        level: row.get(5)?,
        probe: purpose.is_evidence(),
        tries,
    }))
}

fn add(transaction: &Transaction, sheet: &Sheet, added: &mut Added) -> rusqlite::Result<()> {
    let id = bytes_of(sheet.entry.id);
    transaction
        .prepare_cached("DELETE FROM drafts WHERE id = ?1")?
        .execute([id])?;
    let stands: Option<String> = transaction
        .prepare_cached("SELECT payload FROM sheets WHERE id = ?1")?
        .query_row([id], |row| row.get(0))
        .optional()?;
    match stands {
        None => added.new += 1,
        Some(stands) if stands == sheet.payload => {
            added.known += 1;
            return Ok(());
        }
        Some(stands) => {
            added.differing += 1;
            // One that does not read is replaced.
            let stays = Sheet::read(&stands).is_ok_and(|stands| stands.rank() <= sheet.rank());
            if stays {
                return Ok(());
            }
            transaction.execute("DELETE FROM sheets WHERE id = ?1", [id])?;
            transaction.execute("DELETE FROM responses WHERE id = ?1", [id])?;
        }
    }
    insert(transaction, id, sheet)
}

fn insert(transaction: &Transaction, id: [u8; 16], sheet: &Sheet) -> rusqlite::Result<()> {
    let entry = &sheet.entry;
    transaction
        .prepare_cached("INSERT INTO sheets (id, sum, payload) VALUES (?1, ?2, ?3)")?
        .execute(params![id, sheet.sum(), sheet.payload])?;
    transaction
        .prepare_cached(
            "INSERT OR REPLACE INTO responses VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)",
        )?
        .execute(params![
            id,
            entry.person,
            entry.at,
            entry.zone,
            entry.code,
            entry.family,
            entry.level,
            entry.purpose.name(),
            tries::written(&entry.response().tries),
        ])?;
    Ok(())
}

fn change_draft(
    transaction: &Transaction,
    person: &str,
    change: &DraftChange,
    now: i64,
) -> rusqlite::Result<()> {
    match change {
        DraftChange::Keep(draft) => transaction
            .prepare_cached("INSERT OR REPLACE INTO drafts VALUES (?1, ?2, ?3, ?4, ?5)")?
            .execute(params![
                bytes_of(draft.id),
                person,
                now,
                draft.kind,
                draft.text
            ])?,
        DraftChange::Drop(id) => transaction
            .prepare_cached("DELETE FROM drafts WHERE id = ?1")?
            .execute([bytes_of(*id)])?,
    };
    Ok(())
}

/// An id as the file holds it: in the order of time.
pub(super) fn bytes_of(id: Id) -> [u8; 16] {
    id.number().to_be_bytes()
}

const fn id_of(bytes: [u8; 16]) -> Id {
    Id::of_number(u128::from_be_bytes(bytes))
}

#[cfg(test)]
#[path = "store_tests.rs"]
mod tests;
