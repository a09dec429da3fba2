//! Bytes that must not leave memory.

use zeroize::Zeroizing;

/// A PIN or a key. Wiped when dropped; cannot be printed, copied, compared or written to a file by accident.
///
/// ```compile_fail
/// let pin = seal::Secret::new(b"123456".to_vec());
/// println!("{pin:?}");
/// ```
/// ```compile_fail
/// let pin = seal::Secret::new(b"123456".to_vec());
/// let second = pin.clone();
/// ```
/// What works, so that the two above fail for the reason meant:
/// ```
/// let pin = seal::Secret::new(b"123456".to_vec());
/// assert_eq!(pin.expose().len(), 6);
/// ```
pub struct Secret(Zeroizing<Vec<u8>>);

impl Secret {
    pub fn new(bytes: Vec<u8>) -> Secret {
        Secret(Zeroizing::new(bytes))
    }

    /// For the moment of use only.
    pub fn expose(&self) -> &[u8] {
        &self.0
    }
}
