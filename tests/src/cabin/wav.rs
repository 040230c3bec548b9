//! Sound files: RIFF WAVE with 16-bit samples.

/// Writes mono samples.
#[must_use]
pub fn written(samples: &[f32], rate: u32) -> Vec<u8> {
    let size = u32::try_from(samples.len() * 2).unwrap_or(u32::MAX);
    let mut file = Vec::with_capacity(44 + samples.len() * 2);
    file.extend(b"RIFF");
    file.extend((size + 36).to_le_bytes());
    file.extend(b"WAVEfmt ");
    file.extend(16u32.to_le_bytes());
    file.extend(1u16.to_le_bytes());
    file.extend(1u16.to_le_bytes());
    file.extend(rate.to_le_bytes());
    file.extend((rate * 2).to_le_bytes());
    file.extend(2u16.to_le_bytes());
    file.extend(16u16.to_le_bytes());
    file.extend(b"data");
    file.extend(size.to_le_bytes());
    for sample in samples {
        let whole = (f64::from(*sample).clamp(-1.0, 1.0) * 32_767.0).round() as i16;
        file.extend(whole.to_le_bytes());
    }
    file
}

/// Reads mono samples of 16 bits with their rate; `None` for anything else.
#[must_use]
pub fn read(file: &[u8]) -> Option<(Vec<f32>, u32)> {
    let word = |at: usize| Some(u16::from_le_bytes(file.get(at..at + 2)?.try_into().ok()?));
    let long = |at: usize| Some(u32::from_le_bytes(file.get(at..at + 4)?.try_into().ok()?));
    if file.get(..4)? != b"RIFF" || word(22)? != 1 || word(34)? != 16 {
        return None;
    }
    let rate = long(24)?;
    let data = file.windows(4).position(|name| name == b"data")? + 8;
    let pairs = file[data..].chunks_exact(2);
    let samples = pairs
        .map(|pair| f32::from(i16::from_le_bytes([pair[0], pair[1]])) / 32_768.0)
        .collect();
    Some((samples, rate))
}
