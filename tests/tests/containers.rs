//! Containers that a load empties: their rinses stay inside the load.
#![allow(clippy::unwrap_used, reason = "a test fails by panicking")]

use mixcalc::document::read_job;
use mixcalc::*;

/// 15 L in which 0.2 L empty a container of 10 L: three rinses of a quarter take 7.5 L, the measure's 0.75 L. Of 14.8 L of carrier 6.55 L are left to
/// begin with, under half of the load, and the top-up is what the container is rinsed with.
#[test]
fn the_first_carrier_leaves_room_for_the_rinses_of_containers() {
    let job = read_job(
        br#"
        format = "mixcalc-job/1"
        area = "0.1 ha"
        volume_rate = "150 L/ha"
        sprayer = { kind = "boom" }
        tank = { nominal = "15 L", brim = "16 L" }
        measures = [{ kind = "vessel", capacity = "1 L", graduation = "10 mL" }]
        products = [{ name = "example product A", dose = "2 L/ha", containers = { content = "10 L", full = 0, part = "200 mL" } }]
        "#,
    )
    .unwrap();
    let plan = plan(&job).unwrap();
    let cleared = plan.cleared().unwrap();
    let recipe = cleared.recipes().next().unwrap();
    let [mut first, mut rinses, mut top_up] = [Volume::ZERO; 3];
    for step in recipe.steps() {
        match step.action() {
            Action::Fill { .. } => first = step.carrier(),
            Action::RinseContainers { containers, times, each, .. } => {
                assert_eq!((containers, times), (1, 3));
                rinses = each * 3.0;
            }
            Action::TopUp { .. } => top_up = step.carrier(),
            _ => {}
        }
    }
    assert!((rinses.liters() - 7.5).abs() < 1e-9);
    assert!((first.liters() - 6.55).abs() < 1e-9, "{first}");
    assert!((top_up.liters() - 7.5).abs() < 1e-9, "{top_up}");
}
