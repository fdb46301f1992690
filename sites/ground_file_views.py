"""Pages that bring a file onto the drawing board: choose it, say what its layers are, put it there."""

from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from design.exchange.becomes import LEAVE
from design.exchange.ground_from import ground_from
from design.exchange.placing import placed
from design.exchange.refused import FileRefused
from design.exchange.shapes import Shapes
from office.access import office_only, person_of
from sites.access import get_site_for
from sites.drafts import put_ground
from sites.errors import PlanRefused
from sites.ground_file_forms import GroundChoiceForm, GroundFileForm
from sites.ground_file_kept import KeptFile, forget_file, keep_file, kept_file
from sites.ground_file_page import file_picture, layer_rows
from sites.ground_file_reading import kind_of, read_shapes
from sites.models import Site

GONE = "The file was kept for an hour, and the hour is over. Choose it again; what you had chosen is kept."
_MOST_TYPED, _LONGEST_TYPED = 100, 40
_CARRIED = ("unit", "place", "turn")


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def ground_file(request: HttpRequest, site_pk: int) -> HttpResponse:
    site = get_site_for(person_of(request), site_pk)
    if request.method != "POST":
        return _upload_page(request, site, GroundFileForm())
    form = GroundFileForm(request.POST, request.FILES)
    typed = _typed(request)
    if not form.is_valid():
        return _upload_page(request, site, form, 422, typed)
    file: UploadedFile = form.cleaned_data["file"]
    name = str(file.name)
    try:
        shapes = read_shapes(kind_of(name), file.read())
    except FileRefused as refused:
        form.add_error("file", str(refused))
        return _upload_page(request, site, form, 422, typed)
    token = keep_file(person_of(request), site, KeptFile(name, shapes, typed))
    return redirect("sites:ground-file-layers", site_pk=site.pk, token=token)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def ground_file_layers(request: HttpRequest, site_pk: int, token: str) -> HttpResponse:
    """What each layer becomes; then onto the board."""
    person = person_of(request)
    site = get_site_for(person, site_pk)
    kept = kept_file(person, site, token)
    if kept is None:
        form = GroundFileForm()
        return _upload_page(request, site, form, 410, _typed(request), gone=GONE)
    if request.method != "POST":
        return _layers_page(request, site, kept, _choice(site, kept))
    choice = GroundChoiceForm(kept.shapes, request.POST, system=site.units)
    if not choice.is_valid():
        return _layers_page(request, site, kept, choice, 422)
    try:
        found = ground_from(placed(_wanted(choice), choice.placing), choice.becomes, kept.name)
        put_ground(site=site, person=person, ground=found.ground)
    except (FileRefused, PlanRefused) as refused:
        choice.add_error(None, str(refused))
        return _layers_page(request, site, kept, choice, 422)
    forget_file(person, site, token)
    things = "1 thing" if found.count == 1 else f"{found.count} things"
    messages.success(
        request, f"From {kept.name}: {things} put on the drawing board. {' '.join(found.notes)}".strip()
    )
    return redirect("sites:board", site_pk=site.pk)


def _choice(site: Site, kept: KeptFile) -> GroundChoiceForm:
    return GroundChoiceForm(kept.shapes, initial=kept.typed, system=site.units)


def _wanted(choice: GroundChoiceForm) -> Shapes:
    """Only what is taken counts for where the lower left corner is."""
    return choice.shapes.only(name for name, code in choice.becomes.items() if code != LEAVE)


def _typed(request: HttpRequest) -> dict[str, str]:
    """What had been chosen for the file, short enough to be kept and posted again."""
    names = [name for name in request.POST if name in _CARRIED or name.startswith("layer-")]
    return {name: request.POST[name][:_LONGEST_TYPED] for name in names[:_MOST_TYPED] if len(name) <= 12}


def _upload_page(
    request: HttpRequest, site: Site, form: GroundFileForm, status: int = 200,
    typed: dict[str, str] | None = None, gone: str = "",
) -> HttpResponse:  # fmt: skip
    context = {"site": site, "form": form, "typed": typed or {}, "gone": gone}
    return render(request, "sites/ground_file.html", context, status=status)


def _layers_page(
    request: HttpRequest, site: Site, kept: KeptFile, form: GroundChoiceForm, status: int = 200
) -> HttpResponse:
    context = {
        "site": site, "form": form, "name": kept.name, "shapes": kept.shapes,
        "rows": layer_rows(form), "picture": file_picture(form),
    }  # fmt: skip
    return render(request, "sites/ground_file_layers.html", context, status=status)
