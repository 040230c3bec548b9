//! Whether a JPEG's coded data ends where its pictures end: a bit that
//! changed on the way shifts all blocks behind it, and a decoder shows that
//! without a word. Codes, tables and markers: ITU-T T.81, annexes B, C, F
//! and G.

/// Whether the codes of each scan end with its last block, each restart
/// interval for itself. Refining scans of a progressive file are passed
/// over: what they add does not move a picture. Also true of frames that are
/// neither sequential nor progressive Huffman ones.
#[must_use]
pub fn scans_are_whole(jpeg: &[u8]) -> bool {
    walk(jpeg).unwrap_or(false)
}

struct Component {
    id: u8,
    across: usize,
    down: usize,
}

struct Frame {
    progressive: bool,
    width: usize,
    height: usize,
    components: Vec<Component>,
}

/// A scan's share of the work: which coefficients, whether refining.
struct Band {
    first: usize,
    last: usize,
    refines: bool,
}

/// Tables by class (DC, AC) and number.
type Tables = [[Option<Codes>; 4]; 2];

fn walk(jpeg: &[u8]) -> Option<bool> {
    let mut tables: Tables = Default::default();
    let mut frame: Option<Frame> = None;
    let mut interval = 0;
    let mut at = 2;
    loop {
        while jpeg.get(at)? == &0xFF && jpeg.get(at + 1)? == &0xFF {
            at += 1;
        }
        if jpeg.get(at)? != &0xFF {
            return None;
        }
        let marker = *jpeg.get(at + 1)?;
        if marker == 0xD9 {
            return Some(frame.is_some());
        }
        let length = word(jpeg, at + 2)?;
        let content = jpeg.get(at + 4..at + 2 + length)?;
        at += 2 + length;
        match marker {
            0xC4 => add_tables(content, &mut tables)?,
            0xC0..=0xC2 => frame = Some(frame_of(content, marker == 0xC2)?),
            0xC3 | 0xC5..=0xC7 | 0xC9..=0xCB | 0xCD..=0xCF => return Some(true),
            0xDD => interval = word(content, 0)?,
            0xDA => at += scan(jpeg.get(at..)?, content, frame.as_ref()?, &tables, interval)?,
            _ => {}
        }
    }
}

fn word(bytes: &[u8], at: usize) -> Option<usize> {
    let two: [u8; 2] = bytes.get(at..at + 2)?.try_into().ok()?;
    Some(usize::from(u16::from_be_bytes(two)))
}

fn frame_of(content: &[u8], progressive: bool) -> Option<Frame> {
    let count = usize::from(*content.get(5)?);
    let components = content.get(6..6 + 3 * count)?.chunks_exact(3);
    let components: Vec<Component> = components
        .map(|three| Component {
            id: three[0],
            across: usize::from(three[1] >> 4),
            down: usize::from(three[1] & 15),
        })
        .collect();
    let fits = |n: usize| (1..=4).contains(&n);
    let all = components.iter().all(|c| fits(c.across) && fits(c.down));
    (all && count > 0).then_some(Frame {
        progressive,
        height: word(content, 1)?,
        width: word(content, 3)?,
        components,
    })
}

fn add_tables(mut content: &[u8], tables: &mut Tables) -> Option<()> {
    while let Some((&head, rest)) = content.split_first() {
        let (counts, rest) = rest.split_at_checked(16)?;
        let total = counts.iter().map(|n| usize::from(*n)).sum();
        let (symbols, rest) = rest.split_at_checked(total)?;
        let table = tables.get_mut(usize::from(head >> 4))?;
        *table.get_mut(usize::from(head & 15))? = Some(Codes::new(counts, symbols)?);
        content = rest;
    }
    Some(())
}

/// Walks a scan; the bytes it takes, `None` when its codes do not fit.
fn scan(
    data: &[u8],
    head: &[u8],
    frame: &Frame,
    tables: &Tables,
    interval: usize,
) -> Option<usize> {
    let count = usize::from(*head.first()?);
    let named = head.get(1..1 + 2 * count)?;
    let last = head.get(1 + 2 * count..4 + 2 * count)?;
    let band = if frame.progressive {
        Band {
            first: usize::from(last[0]),
            last: usize::from(last[1]).min(63),
            refines: last[2] >> 4 != 0,
        }
    } else {
        Band {
            first: 0,
            last: 63,
            refines: false,
        }
    };
    if band.refines && band.first > 0 {
        return Some(passed_over(data));
    }
    let mut parts = Vec::with_capacity(count);
    for two in named.chunks_exact(2) {
        let component = frame.components.iter().find(|c| c.id == two[0])?;
        let table = |class: usize, n: u8| tables[class].get(usize::from(n))?.as_ref();
        parts.push((component, table(0, two[1] >> 4), table(1, two[1] & 15)));
    }
    let most = |of: fn(&Component) -> usize| frame.components.iter().map(of).max();
    let (across, down) = (most(|c| c.across)?, most(|c| c.down)?);
    let units = match parts.as_slice() {
        [(only, ..)] => {
            let blocks = |size: usize, own: usize, most: usize| (size * own).div_ceil(8 * most);
            blocks(frame.width, only.across, across) * blocks(frame.height, only.down, down)
        }
        _ => frame.width.div_ceil(8 * across) * frame.height.div_ceil(8 * down),
    };
    let single = parts.len() == 1;
    let mut bits = Bits::new(data);
    let mut run = 0;
    for unit in 0..units {
        if interval > 0 && unit > 0 && unit % interval == 0 {
            bits = bits.restarted()?;
            run = 0;
        }
        for (component, dc, ac) in &parts {
            let blocks = if single {
                1
            } else {
                component.across * component.down
            };
            for _ in 0..blocks {
                block(&mut bits, &band, *dc, *ac, &mut run)?;
            }
        }
    }
    bits.end()
}

/// The bytes up to the next marker that is no restart.
fn passed_over(data: &[u8]) -> usize {
    let ends = |two: &[u8]| two[0] == 0xFF && two[1] != 0 && !(0xD0..=0xD7).contains(&two[1]);
    data.windows(2).position(ends).unwrap_or(data.len())
}

fn block(
    bits: &mut Bits,
    band: &Band,
    dc: Option<&Codes>,
    ac: Option<&Codes>,
    run: &mut u32,
) -> Option<()> {
    if band.refines {
        bits.skip(1);
        return bits.left();
    }
    let mut at = band.first;
    if at == 0 {
        let size = bits.symbol(dc?)?;
        if size > 15 {
            return None;
        }
        bits.skip(u32::from(size));
        at = 1;
    }
    if at > band.last {
        return bits.left();
    }
    if *run > 0 {
        *run -= 1;
        return bits.left();
    }
    let ac = ac?;
    while at <= band.last {
        let symbol = bits.symbol(ac)?;
        let (zeros, size) = (u32::from(symbol >> 4), u32::from(symbol & 15));
        if size > 0 {
            at += zeros as usize + 1;
            bits.skip(size);
        } else if zeros == 15 {
            at += 16;
        } else {
            // The end of this block, of a progressive scan of a run of them.
            *run = (1 << zeros) - 1 + bits.take(zeros);
            break;
        }
        if at > band.last + 1 {
            return None;
        }
    }
    bits.left()
}

/// Codes of up to so many bits are looked up at once.
const QUICK: u32 = 9;

/// A Huffman table.
struct Codes {
    /// Length and symbol by the next bits; length 0 for longer codes.
    quick: Vec<(u8, u8)>,
    /// By length: one past its greatest code, left-aligned to 16 bits.
    ends: [u32; 17],
    /// By length: what to add to a code for its place in `symbols`.
    shifts: [i32; 17],
    symbols: Vec<u8>,
}

impl Codes {
    fn new(counts: &[u8], symbols: &[u8]) -> Option<Self> {
        let mut quick = vec![(0, 0); 1 << QUICK];
        let (mut ends, mut shifts) = ([0; 17], [0; 17]);
        let (mut code, mut place) = (0u32, 0usize);
        for (count, length) in counts.iter().zip(1u32..) {
            shifts[length as usize] = i32::try_from(place).ok()? - code.cast_signed();
            for _ in 0..*count {
                if length <= QUICK {
                    let from = (code << (QUICK - length)) as usize;
                    let to = from + (1 << (QUICK - length));
                    quick
                        .get_mut(from..to)?
                        .fill((length as u8, *symbols.get(place)?));
                }
                code += 1;
                place += 1;
            }
            ends[length as usize] = code << (16 - length);
            if ends[length as usize] > 1 << 16 {
                return None;
            }
            code <<= 1;
        }
        Some(Self {
            quick,
            ends,
            shifts,
            symbols: symbols.to_vec(),
        })
    }
}

/// Bits of coded data up to the next marker; zeros behind them.
struct Bits<'a> {
    data: &'a [u8],
    /// The next byte.
    at: usize,
    /// The next bits, the first one highest.
    held: u64,
    /// How many are held.
    count: u32,
    /// How many of them stand for nothing in the data.
    beyond: u32,
}

impl<'a> Bits<'a> {
    fn new(data: &'a [u8]) -> Self {
        Self {
            data,
            at: 0,
            held: 0,
            count: 0,
            beyond: 0,
        }
    }

    #[inline]
    fn fill(&mut self) {
        while self.count <= 56 {
            let byte = match self.data.get(self.at) {
                Some(0xFF) if self.data.get(self.at + 1) == Some(&0) => {
                    self.at += 2;
                    0xFF
                }
                Some(0xFF) | None => {
                    self.beyond += 8;
                    0
                }
                Some(byte) => {
                    self.at += 1;
                    *byte
                }
            };
            self.held |= u64::from(byte) << (56 - self.count);
            self.count += 8;
        }
    }

    #[inline]
    fn skip(&mut self, bits: u32) {
        if self.count < bits {
            self.fill();
        }
        self.held <<= bits;
        self.count -= bits;
    }

    #[inline]
    fn take(&mut self, bits: u32) -> u32 {
        if bits == 0 {
            return 0;
        }
        self.fill();
        let value = (self.held >> (64 - bits)) as u32;
        self.skip(bits);
        value
    }

    #[inline]
    fn symbol(&mut self, codes: &Codes) -> Option<u8> {
        if self.count < 16 {
            self.fill();
        }
        let next = (self.held >> 48) as u32;
        let (length, symbol) = codes.quick[(next >> (16 - QUICK)) as usize];
        if length > 0 {
            self.skip(u32::from(length));
            return Some(symbol);
        }
        let length = (QUICK + 1..=16).find(|n| next < codes.ends[*n as usize])?;
        let code = (next >> (16 - length)).cast_signed();
        let place = usize::try_from(code + codes.shifts[length as usize]).ok()?;
        self.skip(length);
        codes.symbols.get(place).copied()
    }

    /// Whether nothing was taken that is not there.
    #[inline]
    fn left(&self) -> Option<()> {
        (self.count >= self.beyond).then_some(())
    }

    /// Where the data ends: less than a byte is left before a marker.
    fn end(mut self) -> Option<usize> {
        self.fill();
        let left = self.count.checked_sub(self.beyond)?;
        (left < 8 && self.at < self.data.len()).then_some(self.at)
    }

    /// Behind the restart marker that must come now.
    fn restarted(self) -> Option<Self> {
        let data = self.data;
        let at = self.end()?;
        let mut mark = at + 1;
        while data.get(mark) == Some(&0xFF) {
            mark += 1;
        }
        matches!(data.get(mark), Some(0xD0..=0xD7)).then(|| Self {
            at: mark + 1,
            ..Self::new(data)
        })
    }
}
