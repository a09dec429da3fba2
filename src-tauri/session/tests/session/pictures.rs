//! Codes in pictures: what the tablet's camera sees, and what is handed in.

use std::io::Cursor;
use std::path::Path;

use domain::command::Command;
use domain::contract::{Code, Shape};
use domain::event::What;
use domain::handover::arrived::Source;
use domain::handover::drawing::unpacked;
use domain::say::Say;
use domain::state::screen::Screen;
use image::{GrayImage, ImageFormat, Luma};
use words::Language;

use crate::hand_clock::HandClock;
use crate::library::folded;
use crate::nurse::Nurse;
use crate::recording::events;
use crate::wards::with_dials_owed;

/// Pixels of a module's side.
const SIDE: u32 = 4;
/// Light modules around a symbol (ISO/IEC 18004).
const QUIET: u32 = 4;

pub fn png(picture: &GrayImage) -> Vec<u8> {
    let mut file = Cursor::new(Vec::new());
    picture.write_to(&mut file, ImageFormat::Png).unwrap();
    file.into_inner()
}

/// The symbol on another tablet's glass, and the lines in it.
pub fn another_tablets_code() -> (Vec<u8>, String) {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = with_dials_owed(folder.path(), &HandClock::new());
    nurse.ask(Command::Go(Screen::Code { bed: 1, wire: 1 }));
    nurse.wait("the code", |view| matches!(&view.shape, Shape::Code(code) if code.across > 0));
    let Shape::Code(code) = &nurse.view.shape else { panic!("{:?}", nurse.view.shape) };
    let drawn = png(&drawn(code));
    let lines = folded(folder.path()).wire(1, 1).unwrap().code.clone().unwrap().lines.unwrap();
    (drawn, lines)
}

fn drawn(code: &Code<String>) -> GrayImage {
    let rows: Vec<Vec<u8>> =
        unpacked(code.across, &code.modules).into_iter().map(String::into_bytes).collect();
    let width = (u32::from(code.across) + 2 * QUIET) * SIDE;
    let module = |at: u32| (at / SIDE).checked_sub(QUIET).map(|at| at as usize);
    GrayImage::from_fn(width, width, |x, y| {
        let (x, y) = (module(x), module(y));
        let hit = y.zip(x).and_then(|(y, x)| rows.get(y)?.get(x).copied());
        Luma([if hit == Some(b'1') { 0 } else { 255 }])
    })
}

fn begun(folder: &Path) -> Vec<Source> {
    let sources = events(folder).into_iter().filter_map(|event| {
        if let What::LoadBegun { source, .. } = event.what { Some(source) } else { None }
    });
    sources.collect()
}

/// The camera gives one picture after the other, and those that come while one is looked at are let go.
fn held_before_the_camera(nurse: &mut Nurse, picture: &[u8], until: impl Fn(&Nurse) -> bool) {
    for _ in 0..400 {
        if until(nurse) {
            return;
        }
        nurse.session.hand_in(domain::CAMERA_FIELD, picture).unwrap();
        nurse.glance(50);
    }
    panic!("nothing came of it: {:#?}", nurse.view)
}

#[test]
fn a_code_before_the_camera_is_read_and_pictures_without_one_leave_no_trace() {
    let (code, lines) = another_tablets_code();
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    nurse.ask(Command::Welcomed);
    nurse.ask(Command::Go(Screen::Load { bed: None }));
    let before = (nurse.view.clone(), events(folder.path()).len());
    for nothing in [png(&GrayImage::new(320, 240)), b"no picture".to_vec(), Vec::new()] {
        nurse.session.hand_in(domain::CAMERA_FIELD, &nothing).unwrap();
        nurse.drain();
    }
    let after = (nurse.view.clone(), events(folder.path()).len());
    assert_eq!((&after.0.shape, &after.0.notice, after.1), (&before.0.shape, &None, before.1));
    held_before_the_camera(&mut nurse, &code, |nurse| matches!(nurse.view.shape, Shape::Result(_)));
    assert_eq!(folded(folder.path()).screen, Screen::Arrived { at: 0 });
    nurse.session.close();
    assert_eq!(begun(folder.path()), [Source::Seen(lines)], "once, and nothing of the pictures before it");
}

/// A camera that still runs behind another card opens nothing there, nor later.
#[test]
fn only_the_card_that_asks_for_a_code_takes_what_the_camera_sees() {
    let (code, _) = another_tablets_code();
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    nurse.ask(Command::Welcomed);
    nurse.session.hand_in(domain::CAMERA_FIELD, &code).unwrap();
    nurse.ask(Command::Go(Screen::Load { bed: None }));
    nurse.drain();
    assert_eq!(folded(folder.path()).screen, Screen::Load { bed: None });
    nurse.session.close();
    assert_eq!(begun(folder.path()), []);
}

#[test]
fn another_symbol_before_the_camera_is_told_and_its_text_is_not_kept() {
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    nurse.ask(Command::Welcomed);
    nurse.ask(Command::Go(Screen::Load { bed: None }));
    let ticket = handover::draw("a ticket (invented)", handover::Level::M, 18).unwrap();
    let said = words::say(&Say::NotLoadedNotACode, Language::English).unwrap();
    let picture = GrayImage::from_fn(400, 400, |x, y| {
        let module =
            |at: u32| ((at / SIDE).checked_sub(QUIET)).map(|at| at as usize).filter(|at| *at < ticket.width);
        let dark = module(x).zip(module(y)).is_some_and(|(x, y)| ticket.dark[y * ticket.width + x]);
        Luma([if dark { 0 } else { 255 }])
    });
    held_before_the_camera(&mut nurse, &png(&picture), |nurse| nurse.view.notice.as_ref() == Some(&said));
    nurse.session.close();
    assert_eq!(begun(folder.path()), []);
}

/// The same specks on every machine.
fn specks() -> GrayImage {
    let mut last = 1_u32;
    GrayImage::from_fn(1_500, 1_500, |_, _| {
        last = last.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        Luma([(last >> 24) as u8])
    })
}

/// Left while a worker looks at it: what the worker brings is not taken, and the next picture is read as ever.
#[test]
fn the_card_says_how_far_the_looks_are_and_leaving_it_ends_them() {
    let (code, _) = another_tablets_code();
    let folder = tempfile::tempdir().unwrap();
    let mut nurse = Nurse::start(folder.path(), &HandClock::new());
    nurse.ask(Command::Welcomed);
    nurse.ask(Command::Go(Screen::Load { bed: None }));
    nurse.hand_in(domain::PICTURE_FIELD, &png(&specks()));
    nurse.wait("the first looks", |view| view.progress.as_ref().is_some_and(|looks| looks.done >= 1));
    let looks = nurse.view.progress.clone().unwrap();
    assert_eq!(
        looks.label,
        words::say(&Say::CodeLooks { done: looks.done, of: looks.of }, Language::English).unwrap()
    );
    assert!(looks.done < looks.of, "{looks:?}");
    nurse.ask(Command::Go(Screen::Load { bed: None }));
    assert_eq!(nurse.view.progress, None);
    nurse.drain();
    nurse.hand_in(domain::PICTURE_FIELD, &code);
    nurse.wait("the code", |view| matches!(view.shape, Shape::Result(_)));
    nurse.session.close();
    let ended = events(folder.path()).into_iter().filter_map(|event| {
        if let What::LoadEnded { load, outcome } = event.what { Some((load, outcome.is_ok())) } else { None }
    });
    assert_eq!(ended.collect::<Vec<_>>(), [(1, true)], "nothing of the picture that was left");
}
