"""The drafts of confirmations, read back by Python's own e-mail parser (RFC 5322, RFC 2045 to 2047, RFC 2231)."""
import email
import email.header
import email.policy
import email.utils
import os
import pathlib
import shutil
import subprocess
import tempfile
import unittest

import documents

ROSTER = """number,name,e-mail,tier,quantity,paid,parcel,address
1,Żaneta “Zoë” Quillfeather-of-the-Long-Lane-behind-the-Old-Orchard,zoe@fenmoor.example,full,1,74.00,,Lane 1
2,"Reed, Ada
Bcc: all@fenmoor.example",ada@fenmoor.example,full,2,0,,Lane 2
3,Bo,"bo@fenmoor.example
Bcc: all@fenmoor.example",full,1,,,Lane 3
4,Cy 🌸,,booklet,1,,,
"""


class Drafts(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.folder = pathlib.Path(tempfile.mkdtemp())
        shutil.copytree(documents.SAMPLES / "orchard-gate", cls.folder / "class")
        (cls.folder / "class" / "roster.csv").write_text(ROSTER, encoding="utf-8")
        subprocess.run([os.environ["OUTSIDE_PROGRAM"], "confirmations", cls.folder / "class" / "project.xml", "-o",
                        cls.folder / "out", "--quiet"], check=True, capture_output=True)
        cls.files = sorted((cls.folder / "out" / "private").rglob("*.eml"))
        cls.read = [email.message_from_bytes(file.read_bytes(), policy=email.policy.default) for file in cls.files]

    @classmethod
    def tearDownClass(cls):
        shutil.rmtree(cls.folder)

    def test_there_is_one_for_each_order_and_none_outside_the_private_folder(self):
        self.assertEqual(len(self.read), 4)
        self.assertEqual(sorted(self.folder.joinpath("out").rglob("*.eml")), self.files)

    def test_each_is_read_without_a_fault(self):
        for file, message in zip(self.files, self.read):
            with self.subTest(file=file.name):
                for part in message.walk():
                    self.assertEqual(list(part.defects), [])
                    for value in part.values():
                        self.assertEqual(list(value.defects), [])
                self.assertIsNotNone(message["Date"].datetime)
                self.assertEqual(len(message["From"].addresses), 1)

    def test_lines_end_as_they_must_and_are_short(self):
        for file in self.files:
            with self.subTest(file=file.name):
                data = file.read_bytes()
                self.assertEqual(data.count(b"\n"), data.count(b"\r\n"))
                self.assertTrue(data.isascii())
                self.assertLessEqual(max(map(len, data.split(b"\r\n"))), 78)

    def test_names_come_back_as_they_were_and_make_no_headers(self):
        # The newer parser of addresses keeps a blank between two encoded words, against RFC 2047, 6.2.
        raw = email.message_from_bytes(self.files[0].read_bytes())["To"]
        name, address = email.utils.parseaddr(str(email.header.make_header(email.header.decode_header(raw))))
        self.assertEqual(name, "Żaneta “Zoë” Quillfeather-of-the-Long-Lane-behind-the-Old-Orchard")
        self.assertEqual(address, "zoe@fenmoor.example")
        self.assertEqual(self.read[1]["To"].addresses[0].addr_spec, "ada@fenmoor.example")
        self.assertIsNone(self.read[2]["To"])  # no address that could be believed
        self.assertIsNone(self.read[3]["To"])
        for message in self.read:
            self.assertIsNone(message["Bcc"])
            self.assertIn("Orchard Gate", message["Subject"])

    def test_the_words_say_what_is_ordered_and_owed(self):
        words = [message.get_body().get_content() for message in self.read]
        self.assertIn("Full kit", words[0])
        self.assertIn("Paid: $74.00", words[0])
        self.assertIn("2 × Full kit", words[1])
        self.assertIn("Still to pay", words[1])
        self.assertNotIn("Still to pay", words[2])  # nobody says whether it is paid
        self.assertIn("Cy 🌸", words[3])

    def test_the_tutorial_goes_with_what_is_paid_as_it_was_made(self):
        attached = [[part for part in message.iter_attachments()] for message in self.read]
        self.assertEqual([len(parts) for parts in attached][1:], [0, 1, 1])
        for parts in attached:
            for part in parts:
                self.assertEqual(part.get_content_type(), "application/pdf")
                self.assertTrue(part.get_filename().endswith(".pdf"))
                self.assertTrue(part.get_content().startswith(b"%PDF-1."))
                self.assertTrue(part.get_content().rstrip().endswith(b"%%EOF"))


if __name__ == "__main__":
    unittest.main()
