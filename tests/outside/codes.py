"""Verifies the kept codes with libraries of other origin: Base45, two COSE libraries, Ed25519.

    pip install pycose==1.1.0 cwt==3.3.0 base45==0.4.4 cbor2
    python tests/outside/codes.py

Not part of `make test`: it needs packages of its own.
"""

import pathlib
import sys

import base45
import cbor2
import cwt
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey
from pycose.keys import OKPKey
from pycose.keys.curves import Ed25519
from pycose.messages import Sign1Message

FOLDER = pathlib.Path(__file__).parents[2] / "src-tauri/handover/tests/released"
PURPOSE = b"holdfast handover"


def signed_lines_hold(code: bytes) -> bool:
    body, letters = code.rsplit(b"SIG ", 1)
    packed = base45.b45decode(letters)
    try:
        Ed25519PublicKey.from_public_bytes(packed[:32]).verify(packed[32:], body)
    except InvalidSignature:
        return False
    return True


def pycose_opens(token: bytes) -> bytes | None:
    message = Sign1Message.decode(token)
    message.external_aad = PURPOSE
    message.key = OKPKey(crv=Ed25519, x=message.payload[:32])
    return message.payload[32:] if message.verify_signature() else None


def cwt_opens(token: bytes, public: bytes) -> bytes | None:
    kid = cbor2.loads(cbor2.loads(token).value[0])[4]
    key = cwt.COSEKey.new({1: 1, -1: 6, 2: kid, 3: -8, -2: public})
    try:
        return cwt.COSE.new().decode(token, key, external_aad=PURPOSE)[32:]
    except cwt.VerifyError:
        return None


def check(name: str, holds: bool) -> int:
    print(("holds   " if holds else "FAILS   ") + name)
    return 0 if holds else 1


def main() -> int:
    failed = 0
    for version, name in ((v, n) for v in sorted(one.name for one in FOLDER.iterdir()) for n in ("ordinary", "longest")):
        folder, mark = FOLDER / version, f"HFC{version}:".encode()
        lines = (folder / f"{name}.lines").read_bytes()
        failed += check(f"{version}/{name}: lines, Ed25519", signed_lines_hold(lines))
        changed = lines.replace(b"OUTPUT: ", b"OUTPUT: 1", 1)
        failed += check(f"{version}/{name}: changed lines are refused", not signed_lines_hold(changed))
        content = (folder / f"{name}.content").read_bytes()
        token = base45.b45decode((folder / f"{name}.copy").read_bytes().removeprefix(mark))
        public = base45.b45decode(lines.rsplit(b"SIG ", 1)[1])[:32]
        failed += check(f"{version}/{name}: copy, pycose", pycose_opens(token) == content)
        failed += check(f"{version}/{name}: copy, cwt", cwt_opens(token, public) == content)
        flipped = bytearray(token)
        flipped[60] ^= 1
        failed += check(f"{version}/{name}: a flipped bit is refused by pycose", pycose_opens(bytes(flipped)) is None)
        failed += check(f"{version}/{name}: a flipped bit is refused by cwt", cwt_opens(bytes(flipped), public) is None)
        canonical = cbor2.dumps(cbor2.loads(content), canonical=True) == content
        failed += check(f"{version}/{name}: content is canonical CBOR by cbor2", canonical)
    return failed


if __name__ == "__main__":
    sys.exit(main())
