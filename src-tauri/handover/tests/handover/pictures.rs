//! Pictures of codes: whole, turned, photographed, several in one; and what is none.

use std::cell::RefCell;
use std::io::Cursor;
use std::sync::atomic::{AtomicBool, Ordering};

use domain::handover::arrived::NotLoaded;
use handover::{Level, codes_in_picture, copy, draw};
use image::{DynamicImage, GrayImage, ImageFormat, Luma};

use crate::made::{key, longest, signed, summary};

/// A simple generator of noise: the same picture on every machine.
struct Noise(u64);

impl Noise {
    fn next(&mut self) -> f32 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 40) as f32) / 16_777_216.0 - 0.5
    }
}

fn drawn(text: &str, level: Level, pixels: u32) -> GrayImage {
    let code = draw(text, level, 40).unwrap();
    let across = u32::try_from(code.width).unwrap();
    let side = (across + 8) * pixels;
    GrayImage::from_fn(side, side, |x, y| {
        let module = |at: u32| (at / pixels).checked_sub(4).filter(|at| *at < across);
        let hit = module(y).zip(module(x)).map(|(y, x)| code.dark[(y * across + x) as usize]);
        Luma([if hit == Some(true) { 0 } else { 255 }])
    })
}

fn file(picture: &GrayImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    DynamicImage::ImageLuma8(picture.clone()).write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

fn read(bytes: &[u8]) -> Result<Vec<Vec<u8>>, NotLoaded> {
    codes_in_picture(bytes, &AtomicBool::new(false), |_, _| ())
}

fn texts() -> [(String, Level); 3] {
    [
        (signed(&summary()), Level::M),
        (signed(&longest()), Level::M),
        (copy::sign(&longest(), &key()).unwrap(), Level::Q),
    ]
}

#[test]
fn both_formats_whole_and_turned_by_quarters() {
    for (text, level) in texts() {
        let upright = drawn(&text, level, 5);
        let turned = [
            upright.clone(),
            image::imageops::rotate90(&upright),
            image::imageops::rotate180(&upright),
            image::imageops::rotate270(&upright),
        ];
        for picture in &turned {
            for format in [ImageFormat::Png, ImageFormat::Jpeg] {
                assert_eq!(read(&file(picture, format)), Ok(vec![text.clone().into_bytes()]), "{format:?}");
            }
        }
    }
}

/// Turned by some degrees, seen aslant, dim, unsharp and noisy, as a phone held by hand gives it.
#[allow(clippy::disallowed_methods, reason = "a photograph, not a run")]
fn photographed(code: &GrayImage, degrees: f32, seed: u64) -> GrayImage {
    let mut noise = Noise(seed);
    let side = code.width() * 3 / 2;
    let (sin, cos) = degrees.to_radians().sin_cos();
    let middle = side as f32 / 2.0;
    let at = |x: f32, y: f32| {
        let (dx, dy) = (x - middle, y - middle);
        let aslant = 1.0 + dx / middle * 0.06;
        let (u, v) = ((dx * cos + dy * sin) * aslant, (dy * cos - dx * sin) * aslant);
        let inside = |one: f32| {
            let place = one + code.width() as f32 / 2.0;
            (place >= 0.0 && place < code.width() as f32).then_some(place as u32)
        };
        inside(u).zip(inside(v)).map_or(200.0, |(u, v)| f32::from(code.get_pixel(u, v).0[0]))
    };
    GrayImage::from_fn(side, side, |x, y| {
        let (x, y) = (x as f32, y as f32);
        let soft = [(0.0, 0.0), (0.7, 0.0), (-0.7, 0.0), (0.0, 0.7), (0.0, -0.7)];
        let mean = soft.iter().map(|(dx, dy)| at(x + dx, y + dy)).sum::<f32>() / 5.0;
        let light = 0.55 + 0.25 * x / side as f32;
        Luma([(40.0 + mean * light * 0.7 + noise.next() * 14.0).clamp(0.0, 255.0) as u8])
    })
}

#[test]
fn photographed_by_hand() {
    let mut missed = Vec::new();
    for (text, level) in texts() {
        let code = drawn(&text, level, 6);
        for (turn, seed) in [(-8.0, 1), (-3.0, 2), (4.0, 3), (11.0, 4), (95.0, 5)] {
            let picture = photographed(&code, turn, seed);
            if read(&file(&picture, ImageFormat::Jpeg)) != Ok(vec![text.clone().into_bytes()]) {
                missed.push((text.len(), turn));
            }
        }
    }
    assert!(missed.is_empty(), "letters and degrees of those not read: {missed:?}");
}

#[test]
fn several_in_one_picture_are_all_read() {
    let mut wanted = Vec::new();
    let mut sheet = GrayImage::from_pixel(1_700, 620, Luma([255]));
    for (place, (text, level)) in texts().into_iter().enumerate() {
        image::imageops::overlay(
            &mut sheet,
            &drawn(&text, level, 5),
            i64::try_from(place).unwrap() * 560,
            10,
        );
        wanted.push(text.into_bytes());
    }
    let mut found = read(&file(&sheet, ImageFormat::Png)).unwrap();
    found.sort();
    wanted.sort();
    assert_eq!(found, wanted);
}

/// A phone's whole picture, the code a small part of it.
#[test]
fn a_large_picture_is_looked_at_smaller_too() {
    let (text, level) = texts()[0].clone();
    let mut sheet = GrayImage::from_pixel(4_200, 3_200, Luma([225]));
    image::imageops::overlay(&mut sheet, &drawn(&text, level, 16), 600, 500);
    assert_eq!(read(&file(&sheet, ImageFormat::Jpeg)), Ok(vec![text.into_bytes()]));
}

#[test]
fn what_is_no_picture_or_holds_no_code_is_told_apart() {
    assert_eq!(read(b""), Err(NotLoaded::NotAPicture));
    assert_eq!(read(b"\x00\x00"), Err(NotLoaded::NotAPicture));
    assert_eq!(read(b"GIF89a\x01\x00\x01\x00\x00\x00\x00;"), Err(NotLoaded::NotAPicture));
    let blank = |width, height| file(&GrayImage::from_pixel(width, height, Luma([255])), ImageFormat::Png);
    assert_eq!(read(&blank(1, 1)), Err(NotLoaded::NoCodeInPicture));
    assert_eq!(read(&blank(640, 480)), Err(NotLoaded::NoCodeInPicture));
    let mut cut = file(&drawn("A", Level::M, 5), ImageFormat::Png);
    cut.truncate(cut.len() / 2);
    assert_eq!(read(&cut), Err(NotLoaded::NotAPicture));
}

/// Only the header of such a file is there: whoever decoded it would find no pixels, and say something else.
#[test]
fn a_hundred_megapixels_are_refused_by_their_header() {
    let side = 10_000_u32.to_be_bytes();
    let header = [b"IHDR".as_slice(), &side, &side, &[8, 0, 0, 0, 0]].concat();
    let file = [
        b"\x89PNG\r\n\x1a\n".as_slice(),
        &13_u32.to_be_bytes(),
        &header,
        &crc(&header).to_be_bytes(),
        &[0, 0, 0, 0],
        b"IDAT",
        &crc(b"IDAT").to_be_bytes(),
    ]
    .concat();
    assert_eq!(read(&file), Err(NotLoaded::PictureTooLarge { megapixels: 100 }));
}

/// CRC-32 as PNG (ISO/IEC 15948) uses it.
fn crc(bytes: &[u8]) -> u32 {
    let step = |crc: u32, _| if crc & 1 == 1 { (crc >> 1) ^ 0xEDB8_8320 } else { crc >> 1 };
    !bytes.iter().fold(u32::MAX, |crc, byte| (0..8).fold(crc ^ u32::from(*byte), step))
}

#[test]
fn a_reading_that_is_stopped_gives_nothing_out() {
    let (text, level) = texts()[0].clone();
    let bytes = file(&drawn(&text, level, 5), ImageFormat::Png);
    assert_eq!(codes_in_picture(&bytes, &AtomicBool::new(true), |_, _| ()), Err(NotLoaded::Interrupted));
}

#[test]
fn each_look_is_told_before_it_and_a_stop_is_heeded_between_two() {
    let empty = file(&GrayImage::from_pixel(300, 200, Luma([255])), ImageFormat::Png);
    let told = RefCell::new(Vec::new());
    let read =
        codes_in_picture(&empty, &AtomicBool::new(false), |done, of| told.borrow_mut().push((done, of)));
    assert_eq!(read, Err(NotLoaded::NoCodeInPicture));
    assert_eq!(told.take(), [(0, 4), (1, 4), (2, 4), (3, 4)], "as it is, and on 600, 700 and 850 pixels");
    let stop = AtomicBool::new(false);
    let read = codes_in_picture(&empty, &stop, |done, of| {
        told.borrow_mut().push((done, of));
        stop.store(done == 2, Ordering::Relaxed);
    });
    assert_eq!((read, told.take().len()), (Err(NotLoaded::Interrupted), 3));
}
