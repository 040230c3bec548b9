//! Locking with a passphrase, and the way back: age, version 1, with scrypt.
//!
//! Format: age-encryption.org/v1 (C2SP, age specification).

use std::io::{self, Read, Write};
use std::iter::once;
use std::sync::{Arc, Mutex, PoisonError};

use age::secrecy::SecretString;
use age::stream::{StreamReader, StreamWriter};
use age::{DecryptError, Decryptor, Encryptor, scrypt};
use rakeline_core::text::{Message, msg};

use super::talk::Passphrase;

/// Work of making the key, as power of two: 64 MiB and about half a second
/// in a browser. A phone has no more to give beside its screens.
pub const WORK: u8 = 16;

/// Most work that a file may ask for: what other programs take by default on
/// a fast computer (18 to 20), 1 GiB.
const MOST_WORK: u8 = 20;

/// How a locked file begins.
const LOCKED: &[u8] = b"age-encryption.org/";
/// The whole first line of the one version that this app can open.
const OPENED: &[u8] = b"age-encryption.org/v1\n";
/// How one begins that was written as text.
const ARMOURED: &[u8] = b"-----BEGIN AGE";

/// Bytes that one side puts in and the other takes out.
#[derive(Clone, Default)]
pub(super) struct Pipe(Arc<Mutex<Held>>);

#[derive(Default)]
struct Held {
    bytes: Vec<u8>,
    from: usize,
    ended: bool,
}

impl Pipe {
    fn held<T>(&self, work: impl FnOnce(&mut Held) -> T) -> T {
        work(&mut self.0.lock().unwrap_or_else(PoisonError::into_inner))
    }

    /// Takes out all that is in it.
    pub(super) fn drain(&self) -> Vec<u8> {
        self.held(|held| {
            held.bytes.drain(..held.from);
            held.from = 0;
            std::mem::take(&mut held.bytes)
        })
    }

    fn add(&self, bytes: &[u8]) {
        self.held(|held| {
            let from = std::mem::take(&mut held.from);
            held.bytes.drain(..from);
            held.bytes.extend(bytes);
        });
    }

    fn end(&self) {
        self.held(|held| held.ended = true);
    }
}

impl Write for Pipe {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.add(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl Read for Pipe {
    fn read(&mut self, to: &mut [u8]) -> io::Result<usize> {
        self.held(|held| {
            let mut rest = &held.bytes[held.from..];
            if rest.is_empty() && !held.ended {
                // What is half read is kept by the reader until more comes.
                return Err(io::ErrorKind::WouldBlock.into());
            }
            let read = rest.read(to)?;
            held.from += read;
            Ok(read)
        })
    }
}

/// Where an archive is written to: locked or not.
pub(super) enum Lock {
    /// Everybody can read it.
    Open(Pipe),
    /// Locked with a passphrase.
    Locked(StreamWriter<Pipe>),
}

impl Lock {
    /// An archive that is written into this pipe.
    pub(super) fn new(to: Pipe, passphrase: Option<&Passphrase>) -> Result<Self, Message> {
        let Some(Passphrase(words)) = passphrase else {
            return Ok(Self::Open(to));
        };
        let mut key = scrypt::Recipient::new(SecretString::from(words.clone()));
        key.set_work_factor(WORK);
        let failed = |why: String| msg("backup-not-locked").text("why", why);
        let encryptor = Encryptor::with_recipients(once(&key as &dyn age::Recipient))
            .map_err(|fault| failed(fault.to_string()))?;
        let writer = encryptor.wrap_output(to);
        writer
            .map(Self::Locked)
            .map_err(|fault| failed(fault.to_string()))
    }

    /// Ends it.
    pub(super) fn finish(self) -> io::Result<()> {
        match self {
            Self::Open(_) => Ok(()),
            Self::Locked(writer) => writer.finish().map(|_| ()),
        }
    }
}

impl Write for Lock {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match self {
            Self::Open(to) => to.write(bytes),
            Self::Locked(to) => to.write(bytes),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// An archive that is read, locked or not; its beginning says which.
pub(super) struct Key {
    passphrase: Passphrase,
    from: Pipe,
    reader: Option<Reader>,
    first: Vec<u8>,
}

enum Reader {
    Open,
    Locked(Box<StreamReader<Pipe>>),
}

impl Key {
    pub(super) fn new(passphrase: Passphrase) -> Self {
        Self {
            passphrase,
            from: Pipe::default(),
            reader: None,
            first: Vec::new(),
        }
    }

    /// Takes the next bytes of the file and gives those of the zip in it.
    pub(super) fn feed(&mut self, bytes: &[u8], last: bool) -> Result<Vec<u8>, Message> {
        if self.reader.is_none() {
            self.first.extend(bytes);
            // The whole head of a locked file is far shorter than that.
            if self.first.len() < 16 * 1024 && !last {
                return Ok(Vec::new());
            }
            let first = std::mem::take(&mut self.first);
            self.open(&first)?;
        } else {
            self.from.add(bytes);
        }
        if last {
            self.from.end();
        }
        match &mut self.reader {
            Some(Reader::Locked(reader)) => unlocked(reader),
            _ => Ok(self.from.drain()),
        }
    }

    fn open(&mut self, first: &[u8]) -> Result<(), Message> {
        if first.starts_with(ARMOURED) {
            return Err(msg("backup-armoured"));
        }
        self.from.add(first);
        if !first.starts_with(LOCKED) {
            self.reader = Some(Reader::Open);
            return Ok(());
        }
        let decryptor = Decryptor::new(self.from.clone()).map_err(|fault| match fault {
            // Its version is ours: the rest of its head is spoilt.
            DecryptError::UnknownFormat if first.starts_with(OPENED) => msg("backup-damaged"),
            fault => refused(&fault),
        })?;
        if !decryptor.is_scrypt() {
            return Err(msg("backup-other-key"));
        }
        if self.passphrase.0.is_empty() {
            return Err(msg("backup-wants-passphrase"));
        }
        let words = SecretString::from(self.passphrase.0.clone());
        let mut key = scrypt::Identity::new(words);
        key.set_max_work_factor(MOST_WORK);
        let reader = decryptor
            .decrypt(once(&key as &dyn age::Identity))
            .map_err(|fault| refused(&fault))?;
        self.reader = Some(Reader::Locked(Box::new(reader)));
        Ok(())
    }
}

fn unlocked(reader: &mut StreamReader<Pipe>) -> Result<Vec<u8>, Message> {
    let mut all = Vec::new();
    let mut some = vec![0; 64 * 1024];
    loop {
        match reader.read(&mut some) {
            Ok(0) => return Ok(all),
            Ok(read) => all.extend(&some[..read]),
            Err(fault) if fault.kind() == io::ErrorKind::WouldBlock => return Ok(all),
            Err(_) => return Err(msg("backup-damaged")),
        }
    }
}

fn refused(fault: &DecryptError) -> Message {
    match fault {
        DecryptError::DecryptionFailed
        | DecryptError::KeyDecryptionFailed
        | DecryptError::NoMatchingKeys => msg("backup-wrong-passphrase"),
        DecryptError::ExcessiveWork { .. } => msg("backup-too-much-work"),
        DecryptError::UnknownFormat => msg("backup-newer-lock"),
        _ => msg("backup-damaged"),
    }
}
