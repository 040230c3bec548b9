//! Source: IEC 60228, greatest resistance of class 5 conductors, plain
//! copper, at 20 °C (as listed in the IEC 60228 DC resistance table of
//! mycableengineering.com), and arithmetic from it.

use rakeline_core::decide::supply::{Amperes, Celsius, CrossSection, voltage_drop};
use rakeline_core::units::Millimetres;

#[test]
fn class_5_resistances_are_those_of_the_table() {
    let table = [39.0, 26.0, 19.5, 13.3, 7.98];
    for (lead, wanted) in CrossSection::ALL.iter().zip(table) {
        let found = lead.milliohms_a_metre(Celsius(20.0));
        assert!((found - wanted).abs() < 1e-9, "{lead:?}: {found}");
    }
}

#[test]
fn three_tenths_of_an_ampere_over_six_metres_of_0_75_lose_46_8_millivolts() {
    let lost = voltage_drop(
        CrossSection::Mm2_0_75,
        Millimetres(6000.0),
        Amperes(0.3),
        Celsius(20.0),
    );
    assert!((lost.0 * 1000.0 - 46.8).abs() < 1e-9);
}

#[test]
fn one_ampere_over_ten_metres_of_0_5_loses_0_390_volts() {
    let lost = voltage_drop(
        CrossSection::Mm2_0_5,
        Millimetres(10_000.0),
        Amperes(1.0),
        Celsius(20.0),
    );
    assert!((lost.0 - 0.390).abs() < 1e-12);
}

#[test]
fn a_hot_lead_of_0_75_has_32_64_milliohms_a_metre_at_85_degrees() {
    let found = CrossSection::Mm2_0_75.milliohms_a_metre(Celsius(85.0));
    assert!((found - 32.64).abs() < 0.01, "{found}");
}

#[test]
fn every_class_5_limit_exceeds_ideal_copper_of_that_area() {
    // Ideal copper 17.241 milliohm mm²/m at 20 °C: recalled, not read at its source.
    for lead in CrossSection::ALL {
        let ideal = 17.241 / lead.square_millimetres();
        assert!(lead.milliohms_a_metre(Celsius(20.0)) > ideal, "{lead:?}");
    }
}
