"""Signs, validates and tampers with packages, for the tests: sign.py WHAT FILE OUT.

Key and certificate are made here, self-signed and good for a day; they lie beside OUT."""

import datetime
import sys
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import rsa
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID
from pyhanko.pdf_utils import generic
from pyhanko.pdf_utils.generic import pdf_name
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign import fields, signers, timestamps
from pyhanko.sign.validation import validate_pdf_signature, validate_pdf_timestamp
from pyhanko.sign.validation.dss import DocumentSecurityStore
from pyhanko_certvalidator import ValidationContext


def identity(folder):
    """A key with a certificate that may sign documents and time stamps."""
    key_file, certificate_file = folder / "key.pem", folder / "certificate.pem"
    if not key_file.exists():
        key = rsa.generate_private_key(65537, 2048)
        name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "A. Engineer")])
        now = datetime.datetime.now(datetime.timezone.utc)
        usage = x509.KeyUsage(True, True, False, False, False, True, True, False, False)
        builder = x509.CertificateBuilder(name, name, key.public_key(), 1, now - datetime.timedelta(1), now + datetime.timedelta(1))
        builder = builder.add_extension(x509.BasicConstraints(True, None), True).add_extension(usage, True)
        builder = builder.add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.TIME_STAMPING]), True)
        certificate = builder.sign(key, hashes.SHA256())
        plain = (serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption())
        key_file.write_bytes(key.private_bytes(*plain))
        certificate_file.write_bytes(certificate.public_bytes(serialization.Encoding.PEM))
    return signers.SimpleSigner.load(str(key_file), str(certificate_file))


def sign(writer, out, signer, box=None, certify=None, name="Seal"):
    spec = fields.SigFieldSpec(name, on_page=0, box=box) if box else fields.SigFieldSpec(name)
    about = signers.PdfSignatureMetadata(
        field_name=name,
        reason="Responsible charge",
        certify=certify is not None,
        docmdp_permissions=certify or fields.MDPPerm.FILL_FORMS,
    )
    out.write(signers.sign_pdf(writer, about, signer=signer, new_field_spec=spec).getvalue())


def stamp_time(writer, out, signer):
    stamper = timestamps.DummyTimeStamper(tsa_cert=signer.signing_cert, tsa_key=signer.signing_key)
    out.write(signers.PdfTimeStamper(stamper).timestamp_pdf(writer, "sha256").getvalue())


def tamper(what, writer):
    """Appends an update that is no signature."""
    root, text = writer.root, generic.pdf_string
    if what == "content":
        writer.add_stream_to_page(0, writer.add_object(generic.StreamObject(stream_data=b"BT /F 40 Tf 72 300 Td (1.00) Tj ET")))
    elif what == "attachment":
        names = root["/Names"]["/EmbeddedFiles"]["/Names"]
        at = next(i for i, name in enumerate(names) if name == "results.json")
        stream = names.raw_get(at + 1).get_object()["/EF"].raw_get("/F")
        writer.objects[(stream.generation, stream.idnum)] = generic.StreamObject(stream_data=b"{}")
    elif what == "names":
        root["/Names"]["/EmbeddedFiles"]["/Names"].pop()
        root["/Names"]["/EmbeddedFiles"]["/Names"].pop()
        writer.update_root()
    elif what in ("annotation", "cover"):
        kind = "/FreeText" if what == "annotation" else "/Square"
        box = generic.ArrayObject(map(generic.NumberObject, [50, 50, 550, 700]))
        note = {"/Type": pdf_name("/Annot"), "/Subtype": pdf_name(kind), "/Rect": box, "/Contents": text("1.00")}
        writer.register_annotation(writer.find_page_for_modification(0)[0], writer.add_object(generic.DictionaryObject(map_names(note))))
    elif what == "action":
        root["/OpenAction"] = generic.DictionaryObject(map_names({"/S": pdf_name("/JavaScript"), "/JS": text("1")}))
        writer.update_root()
    elif what == "outline":
        outline = root["/Outlines"]
        first = outline["/First"]
        first["/Title"] = text("Something else")
        writer.update_container(first)
    elif what == "metadata":
        writer.set_info(generic.DictionaryObject(map_names({"/Title": text("Another job")})))
    elif what == "xmp":
        stream = root["/Metadata"]
        data = stream.data.replace(b"An invented office", b"Another office")
        assert data != stream.data
        reference = root.raw_get("/Metadata")
        writer.objects[(reference.generation, reference.idnum)] = generic.StreamObject(dict_data=dict(stream), stream_data=data)
        writer.update_container(root)
        # Otherwise the writer makes the metadata anew from what it read.
        writer._update_meta = lambda: None
    else:
        raise SystemExit(f"{what}?")


def map_names(entries):
    return {pdf_name(key): value for key, value in entries.items()}


def validate(path, signer, judge=True):
    """A line a signature: its field, whether it is intact, what was changed after it."""
    with open(path, "rb") as file:
        reader = PdfFileReader(file)
        context = ValidationContext(trust_roots=[signer.signing_cert], allow_fetching=False)
        for signature in reader.embedded_signatures:
            if signature.sig_object_type == "/DocTimeStamp":
                status = validate_pdf_timestamp(signature, context)
            else:
                status = validate_pdf_signature(signature, context, skip_diff=not judge)
            print(signature.field_name, "intact" if status.intact else "BROKEN", *([status.modification_level.name] if judge else []), status.coverage.name)


def main(what, source, target):
    signer = identity(Path(target).parent)
    if what.startswith("validate"):
        return validate(source, signer, judge=what == "validate")
    with open(source, "rb") as file, open(target, "wb") as out:
        writer = IncrementalPdfFileWriter(file)
        if what == "sign":
            sign(writer, out, signer)
        elif what == "seal":
            sign(writer, out, signer, box=(430, 60, 580, 210))
        elif what == "countersign":
            sign(writer, out, signer, box=(60, 60, 200, 120), name="Checker")
        elif what == "certify":
            sign(writer, out, signer, certify=fields.MDPPerm.NO_CHANGES)
        elif what == "over":
            sign(writer, out, signer, box=(0, 0, 612, 700))
        elif what == "field":
            fields.append_signature_field(writer, fields.SigFieldSpec("Seal", on_page=0, box=(430, 60, 580, 210)))
            writer.write(out)
        elif what == "seal-field":
            about = signers.PdfSignatureMetadata(field_name="Seal")
            out.write(signers.sign_pdf(writer, about, signer=signer, existing_fields_only=True).getvalue())
        elif what == "time":
            stamp_time(writer, out, signer)
        elif what == "validation":
            first = PdfFileReader(file).embedded_signatures[0]
            DocumentSecurityStore.supply_dss_in_writer(writer, first.pkcs7_content, certs=[signer.signing_cert])
            writer.write(out)
        else:
            tamper(what, writer)
            writer.write(out)


main(*sys.argv[1:])
