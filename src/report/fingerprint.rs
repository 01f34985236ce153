//! Digests: of texts, and of what stays the same of a finding while lines come and go above it.

use sha2::{Digest, Sha256};

/// A digest of the parts of an identity.
pub(super) fn fingerprint(parts: &[&str]) -> String {
    let mut digest = Sha256::new();
    for part in parts {
        // With its length, so that no two lists of parts are alike.
        digest.update(part.len().to_le_bytes());
        digest.update(part.as_bytes());
    }
    hexadecimal(&digest.finalize())
}

/// The SHA-256 of a text, as other tools print it.
pub(super) fn digest(text: &str) -> String {
    hexadecimal(&Sha256::digest(text.as_bytes()))
}

fn hexadecimal(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// FIPS 180-2, appendix B.1.
    #[test]
    fn a_digest_is_the_one_that_others_print() {
        assert_eq!(digest("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_ne!(fingerprint(&["ab", "c"]), fingerprint(&["a", "bc"]));
    }
}
