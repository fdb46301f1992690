"""The page on which two versions of a plan are settled."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from design.merging import Side
from design.problems import Problem
from office.access import office_only, person_of
from sites.access import get_site_for
from sites.board_clash import keep_mine, put_together, sides_of, take_theirs
from sites.board_clash_page import ClashPage
from sites.drafts import draft_of
from sites.errors import DraftClash, PlanClash, PlanRefused
from sites.models import Site

WAYS = ("mine", "theirs", "both")


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def board_clash(request: HttpRequest, site_pk: int) -> HttpResponse:
    site = get_site_for(person_of(request), site_pk)
    if sides_of(site, person_of(request)) is None:
        return redirect("sites:board", site_pk=site.pk)
    if request.method != "POST":
        return _page(request, site)
    way = request.POST.get("way")
    if way not in WAYS:
        return _page(request, site, 422, "Choose one of the three ways.")
    if way == "theirs" and request.POST.get("sure") != "yes":
        return _page(request, site, 422, "Tick that yours may go, or take it away as a file first.")
    try:
        return _settled(request, site, way)
    except PlanRefused as refusal:
        return _page(request, site, 422, "Yours is not finished yet, so it cannot be kept.", refusal.problems)
    except (PlanClash, DraftClash):
        return _page(request, site, 409, "One of the two changed meanwhile. This is how both stand now.")


@require_safe
@office_only
def board_draft_file(request: HttpRequest, site_pk: int) -> HttpResponse:
    """The person's draft as a file."""
    site = get_site_for(person_of(request), site_pk)
    draft = draft_of(site, person_of(request))
    if draft is None:
        return redirect("sites:board", site_pk=site.pk)
    answer = JsonResponse(draft.document, json_dumps_params={"indent": 2, "ensure_ascii": False})
    answer["Content-Disposition"] = f'attachment; filename="site-{site.pk}-draft.json"'
    return answer


def _settled(request: HttpRequest, site: Site, way: str) -> HttpResponse:
    person = person_of(request)
    version, newest = _count(request, "draft_version"), _count(request, "newest")
    if way == "mine":
        revision = keep_mine(site=site, person=person, draft_version=version, newest=newest)
        messages.success(request, f"Yours is revision {revision.number}; theirs stays as revision {newest}.")
        return redirect("sites:plan", site_pk=site.pk, number=revision.number)
    if way == "theirs":
        take_theirs(site=site, person=person, draft_version=version, newest=newest)
        messages.success(request, f"You go on from revision {newest}.")
    else:
        choices = _choices(request)
        put_together(site=site, person=person, draft_version=version, newest=newest, choices=choices)
        messages.success(request, "Both are together on the board. Look it over, then keep it.")
    return redirect("sites:board", site_pk=site.pk)


def _choices(request: HttpRequest) -> dict[str, Side]:
    found: dict[str, Side] = {}
    for name, value in request.POST.items():
        if name.startswith("choice."):
            found[name.removeprefix("choice.")] = "theirs" if value == "theirs" else "mine"
    return found


def _count(request: HttpRequest, name: str) -> int:
    """A number of the form; what is none matches no version."""
    text = request.POST.get(name, "")
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 11 else -1


def _page(
    request: HttpRequest, site: Site, status: int = 200, said: str = "", problems: tuple[Problem, ...] = ()
) -> HttpResponse:
    sides = sides_of(site, person_of(request))
    if sides is None:
        return redirect("sites:board", site_pk=site.pk)
    context = {
        "site": site, "sides": sides, "page": ClashPage(site, sides), "said": said, "problems": problems,
    }  # fmt: skip
    return render(request, "sites/board_clash.html", context, status=status)
