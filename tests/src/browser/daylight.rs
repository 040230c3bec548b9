//! Whether the page can be read in daylight and touched with gloves.

use super::Phone;

impl Phone {
    /// What is wrong with the page at this width, as sentences: contrast of
    /// every text below WCAG AA (readings and verdicts: AAA), letters below
    /// 14 px, targets below 48 px (72 at the car), fields without a label,
    /// words that do not fit, a page wider than the screen.
    ///
    /// # Panics
    /// If there is no page.
    #[must_use]
    pub fn faults_at(&self, width: u32) -> Vec<String> {
        let script = format!("({})({width})", include_str!("daylight.js").trim());
        let found = self.whole_page(width, || self.eval(&script));
        let faults: Vec<String> = serde_json::from_value(found).expect("a list of sentences");
        faults
            .into_iter()
            .map(|fault| format!("at {width} px: {fault}"))
            .collect()
    }
}
