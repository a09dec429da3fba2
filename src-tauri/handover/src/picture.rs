//! Codes in a picture file: PNG or JPEG, several codes, turned any way, photographed.

use std::io::Cursor;
use std::sync::atomic::{AtomicBool, Ordering};

use domain::handover::arrived::{ARRIVED_MOST, LOOKS_MOST, MEGAPIXELS_MOST, NotLoaded};
use image::imageops::{FilterType, resize};
use image::{DynamicImage, GrayImage, ImageFormat, ImageReader};

const PIXELS_OF_A_MEGAPIXEL: u64 = 1_000_000;
/// Sides in pixels at which a large picture is looked at: noise and the grain of a screen vanish in smaller ones,
/// modules of a small code in larger ones.
const SIDES: [u32; LOOKS_MOST as usize - 1] = [600, 700, 850, 1_000, 1_200, 1_400, 2_000, 2_800, LARGE];
/// A larger picture is not looked at as it is: it would take seconds.
const LARGE: u32 = 4_000;

/// The texts of the codes in it. `stop` ends it between two looks; `looked` is told how many are done, and of how
/// many at most.
///
/// # Errors
/// No picture, too large a one, or no code in it.
pub fn codes(file: &[u8], stop: &AtomicBool, looked: impl Fn(u32, u32)) -> Result<Vec<Vec<u8>>, NotLoaded> {
    let picture = opened(file)?.into_luma8();
    let mut found: Vec<Vec<u8>> = Vec::new();
    let looks = looks(&picture);
    let of = u32::try_from(looks.len()).unwrap_or(LOOKS_MOST);
    for (done, look) in (0..).zip(looks) {
        looked(done, of);
        if stop.load(Ordering::Relaxed) {
            return Err(NotLoaded::Interrupted);
        }
        for code in in_picture(&look(&picture)) {
            if !found.contains(&code) && found.len() < ARRIVED_MOST {
                found.push(code);
            }
        }
        if !found.is_empty() {
            return Ok(found);
        }
    }
    Err(NotLoaded::NoCodeInPicture)
}

/// The size is read from the header, before anything is decoded.
fn opened(file: &[u8]) -> Result<DynamicImage, NotLoaded> {
    let (width, height) = reader(file)?.into_dimensions().map_err(|_| NotLoaded::NotAPicture)?;
    let megapixels = (u64::from(width) * u64::from(height)).div_ceil(PIXELS_OF_A_MEGAPIXEL);
    if megapixels > u64::from(MEGAPIXELS_MOST) {
        let megapixels = u32::try_from(megapixels).unwrap_or(u32::MAX);
        return Err(NotLoaded::PictureTooLarge { megapixels });
    }
    reader(file)?.decode().map_err(|_| NotLoaded::NotAPicture)
}

/// Only PNG and JPEG, whatever the file is called.
fn reader(file: &[u8]) -> Result<ImageReader<Cursor<&[u8]>>, NotLoaded> {
    let format = image::guess_format(file).map_err(|_| NotLoaded::NotAPicture)?;
    let is_known = format == ImageFormat::Png || format == ImageFormat::Jpeg;
    is_known.then(|| ImageReader::with_format(Cursor::new(file), format)).ok_or(NotLoaded::NotAPicture)
}

type Look = Box<dyn Fn(&GrayImage) -> GrayImage>;

/// As it is first, where it is of ordinary size; then smaller and larger.
fn looks(picture: &GrayImage) -> Vec<Look> {
    let longest = picture.width().max(picture.height()).max(1);
    let mut looks: Vec<Look> = Vec::new();
    if longest <= LARGE {
        looks.push(Box::new(GrayImage::clone));
    }
    let others = SIDES.into_iter().filter(move |side| *side != longest && *side < longest * 3);
    looks.extend(others.map(|side| -> Look { Box::new(move |picture| scaled(picture, side)) }));
    looks
}

fn scaled(picture: &GrayImage, side: u32) -> GrayImage {
    let longest = u64::from(picture.width().max(picture.height()).max(1));
    let to = |one: u32| u32::try_from(u64::from(one) * u64::from(side) / longest).unwrap_or(side).max(1);
    resize(picture, to(picture.width()), to(picture.height()), FilterType::Triangle)
}

/// A quiet border is put around: a code may touch the edge of a cut-out picture.
fn in_picture(picture: &GrayImage) -> Vec<Vec<u8>> {
    const BORDER: u32 = 16;
    let (width, height) = picture.dimensions();
    let bright = |x: usize, y: usize| {
        let inside = |at: usize| u32::try_from(at).ok()?.checked_sub(BORDER);
        let pixel = inside(x).zip(inside(y)).and_then(|(x, y)| picture.get_pixel_checked(x, y));
        pixel.map_or(u8::MAX, |pixel| pixel.0[0])
    };
    let side = |length: u32| (length + 2 * BORDER) as usize;
    let mut prepared = rqrr::PreparedImage::prepare_from_greyscale(side(width), side(height), bright);
    let grids = prepared.detect_grids();
    grids.iter().take(4 * ARRIVED_MOST).filter_map(decoded).collect()
}

fn decoded<G: rqrr::BitGrid>(grid: &rqrr::Grid<G>) -> Option<Vec<u8>> {
    let mut bytes = Vec::new();
    grid.decode_to(&mut bytes).ok().map(|_| bytes)
}
