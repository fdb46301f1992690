"""What is sealed never changes, and a change made behind the program's back is found."""

import hashlib
import io
import json

import pytest
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connection, transaction

from quoting.errors import NotADraft, SealedForGood
from quoting.models import Quote, QuoteLine, SealedProposal
from quoting.sealing import check_seal, missing_numbers
from quoting.services import add_line, edit_line, issue_quote, remove_line, rework_quote
from tests.quoting.factories import make_draft, make_plan

pytestmark = pytest.mark.django_db


def refused(sql, *params):
    """Whether the database itself refuses a statement."""
    try:
        with transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(sql, params)
    except DatabaseError as error:
        return "never changes" in str(error)
    return False


def tamper(sql, *params):
    """Write past the triggers, as somebody with the database's own tools could."""
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            # deferred checks of the constraints have to be done before a table may be altered
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
            cursor.execute("ALTER TABLE quoting_sealedproposal DISABLE TRIGGER USER")
            cursor.execute("ALTER TABLE quoting_quote DISABLE TRIGGER USER")
        else:
            cursor.execute("DROP TRIGGER quoting_seal_update")
            cursor.execute("DROP TRIGGER quoting_quote_update")
        cursor.execute(sql, params)


def test_the_digest_is_over_the_canonical_content_and_the_pdf(issued):
    seal = issued.seal
    assert hashlib.sha256(bytes(seal.pdf)).hexdigest() == seal.pdf_sha256
    assert hashlib.sha256(f"{seal.content}\n{seal.pdf_sha256}".encode()).hexdigest() == seal.digest
    canonical = json.dumps(json.loads(seal.content), sort_keys=True, separators=(",", ":"))
    assert canonical == seal.content


def test_number_plan_report_prices_rates_and_words_are_in_the_seal(issued):
    sealed = issued.seal.sealed
    assert sealed["offer"]["reference"] == issued.reference
    assert sealed["plan_digest"] == issued.plan.digest
    assert sealed["plan"] == issued.plan.document
    assert sealed["report"] == issued.basis.report
    assert len(sealed["lines"]) == issued.lines.count()
    assert sealed["rates"]["wage_per_hour"] == "30.00"
    assert bytes(issued.seal.pdf).startswith(b"%PDF-")


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE quoting_sealedproposal SET content = '{}'",
        "UPDATE quoting_sealedproposal SET digest = 'x'",
        "UPDATE quoting_quote SET total = 1",
        "UPDATE quoting_quote SET number = 99",
        "UPDATE quoting_quote SET valid_until = '2099-01-01'",
        "UPDATE quoting_quote SET status = 'draft'",
        "UPDATE quoting_quoteline SET price = 1",
        "UPDATE quoting_quoteevent SET reason = 'x'",
    ],
)
def test_the_database_refuses_to_change_what_is_out(issued, statement):
    assert refused(statement)


def test_the_database_refuses_to_change_an_acceptance(accepted):
    assert refused("UPDATE quoting_acceptance SET name = 'Somebody Else'")


def test_the_database_lets_drafts_change(draft):
    QuoteLine.objects.filter(quote=draft).update(text="Another word")
    Quote.objects.filter(pk=draft.pk).update(total=7)


def test_code_refuses_as_well(issued):
    with pytest.raises(SealedForGood):
        issued.seal.delete()
    with pytest.raises(SealedForGood):
        SealedProposal.objects.all().delete()
    with pytest.raises(SealedForGood):
        SealedProposal.objects.update(content="{}")


def test_lines_of_what_is_out_cannot_be_edited(issued, clerk):
    line = issued.lines.first()
    with pytest.raises(NotADraft):
        edit_line(line=line, began_from=line.version, by=clerk, fields={"text": "Other"})
    with pytest.raises(NotADraft):
        add_line(quote=issued, by=clerk, fields={"kind": "permit", "text": "More"})
    with pytest.raises(NotADraft):
        remove_line(line=line, by=clerk)
    with pytest.raises(NotADraft):
        rework_quote(quote=issued, by=clerk)


def verify():
    out = io.StringIO()
    call_command("verify_quotes", stdout=out)
    return out.getvalue()


def test_sound_quotes_are_called_sound(issued, accepted):
    said = verify()
    assert f"{issued.reference}: sound" in said
    assert "Every sealed quote is sound." in said


@pytest.mark.parametrize(
    ("statement", "says"),
    [
        ("UPDATE quoting_sealedproposal SET content = replace(content, 'Ada', 'Eve')", "sealed content"),
        ("UPDATE quoting_sealedproposal SET pdf_sha256 = 'x'", "PDF"),
        ("UPDATE quoting_quote SET total = 1", "its total is 1.00"),
    ],
)
def test_a_change_behind_our_back_is_found(issued, statement, says):
    tamper(statement)
    fresh = Quote.objects.get(pk=issued.pk)
    assert says in " ".join(check_seal(fresh).problems)
    with pytest.raises(CommandError, match="1 not sound"):
        verify()


def test_a_missing_number_is_found(clerk):
    quotes = [issue_quote(quote=make_draft(clerk, make_plan()), by=clerk) for _ in range(3)]
    assert missing_numbers() == []
    tamper("UPDATE quoting_quote SET number = 9 WHERE id = %s", quotes[1].pk)
    year = quotes[0].number_year
    assert missing_numbers() == [f"{year}-{n:04d}" for n in (2, 4, 5, 6, 7, 8)]
