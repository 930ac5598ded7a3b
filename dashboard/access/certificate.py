"""A certificate made on this machine, for its one address on the salon's network, and the mark to know it by."""

import ipaddress
import secrets
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from analytics.storage.private_files import replace_private
from dashboard.access.vault import access_folder

FILE, KEY_FILE = "certificate.pem", "certificate-key.pem"
GOOD_FOR = timedelta(days=397)  # browsers take no longer ones from anybody known; common practice, no source
RENEWED_BEFORE_END = timedelta(days=30)


@dataclass(frozen=True)
class Certificate:
    """Where the certificate and its key lie, and the SHA-256 of the certificate as browsers show it."""

    certificate: Path
    key: Path
    fingerprint: str


def certificate_for(salon: Path, host: str, now: datetime | None = None) -> Certificate:
    """The certificate of this address; made where there is none of it, or where it ends within the month."""
    folder, at = access_folder(salon), now or datetime.now(UTC)
    kept = _kept(folder / FILE, host, at) if (folder / KEY_FILE).is_file() else None
    made = kept or _make(folder, host, at)
    return Certificate(folder / FILE, folder / KEY_FILE, made.fingerprint(hashes.SHA256()).hex(":").upper())


def _kept(path: Path, host: str, at: datetime) -> x509.Certificate | None:
    try:
        found = x509.load_pem_x509_certificate(path.read_bytes())
        names = found.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except (OSError, ValueError, x509.ExtensionNotFound):
        return None
    same = names.get_values_for_type(x509.IPAddress) == [ipaddress.ip_address(host)]
    return found if same and found.not_valid_after_utc - at > RENEWED_BEFORE_END else None


def _make(folder: Path, host: str, at: datetime) -> x509.Certificate:
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"salon-figures {secrets.token_hex(4)}")])
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(at - timedelta(days=1))  # a phone's clock may be slow
        .not_valid_after(at + GOOD_FOR)
        .add_extension(x509.SubjectAlternativeName([x509.IPAddress(ipaddress.ip_address(host))]), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .sign(key, hashes.SHA256())
    )
    pem, plain = serialization.Encoding.PEM, serialization.NoEncryption()
    replace_private(folder / KEY_FILE, key.private_bytes(pem, serialization.PrivateFormat.PKCS8, plain))
    replace_private(folder / FILE, made.public_bytes(pem))
    return made
