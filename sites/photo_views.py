"""Photos of a visit: the list, one photo with its place on the plan, taking one out."""

from typing import Any, cast

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from office.access import office_only, person_of
from office.versions import Clash
from parts.clash import clash_rows
from sites.access import get_photo_for, get_visit_for
from sites.errors import PictureRefused
from sites.models import SitePhoto, Visit
from sites.photo_forms import PhotoForm, PhotoUploadForm
from sites.photo_map import photo_map
from sites.photo_services import add_photo, change_photo, photos_of, remove_photo
from sites.walk_round.lines import BY_KEY
from sites.walk_round.page import WalkPage


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def photos(request: HttpRequest, pk: int) -> HttpResponse:
    """All photos of the visit; a post adds one, from here or from a line of the walk."""
    visit = get_visit_for(person_of(request), pk)
    if request.method != "POST":
        return _list(request, visit, PhotoUploadForm())
    form = PhotoUploadForm(request.POST, request.FILES)
    if form.is_valid():
        data = form.cleaned_data
        try:
            add_photo(
                visit=visit, upload=data["file"], by=person_of(request), about=data["about"],
                caption=data["caption"],
            )  # fmt: skip
        except PictureRefused as refusal:
            form.add_error("file", str(refusal))
    if getattr(request, "htmx", False):
        return _strip(request, visit, form)
    if not form.is_valid():
        return _list(request, visit, form, status=422)
    if about := request.POST.get("from_walk") and form.cleaned_data["about"]:
        return redirect(f"{reverse('sites:walk', args=[visit.pk])}#line-{about}")
    messages.success(request, "The photo is kept.")
    return redirect("sites:photos", pk=visit.pk)


@require_http_methods(["GET", "HEAD", "POST"])
@office_only
def photo_edit(request: HttpRequest, pk: int) -> HttpResponse:
    photo = get_photo_for(person_of(request), pk)
    form = PhotoForm(photo, request.POST if request.method == "POST" else None)
    if request.method != "POST":
        return _one(request, photo, form)
    if not form.is_valid():
        return _one(request, photo, form, status=422)
    began_from = form.cleaned_data["began_from"] or 0
    try:
        change_photo(photo, began_from=began_from, by=person_of(request), fields=form.columns())
    except Clash as clash:
        current = cast(SitePhoto, clash.current)
        rows = clash_rows(form, PhotoForm(current))
        form.begin_from(current.version)
        return _one(request, photo, form, status=409, clash=rows)
    messages.success(request, "Saved.")
    return redirect("sites:photos", pk=photo.visit_id)


@require_POST
@office_only
def photo_remove(request: HttpRequest, pk: int) -> HttpResponse:
    photo = get_photo_for(person_of(request), pk)
    visit_pk = photo.visit_id
    remove_photo(photo, by=person_of(request))
    messages.success(request, "The photo is gone.")
    return redirect("sites:photos", pk=visit_pk)


def _list(request: HttpRequest, visit: Visit, form: PhotoUploadForm, status: int = 200) -> HttpResponse:
    rows = [(photo, BY_KEY.get(photo.about)) for photo in photos_of(visit)]
    context = {"visit": visit, "site": visit.site, "photos": rows, "form": form}
    return render(request, "sites/photos.html", context, status=status)


def _strip(request: HttpRequest, visit: Visit, form: PhotoUploadForm) -> HttpResponse:
    """The photos of one line of the walk, with what was wrong about the last one."""
    about = form.cleaned_data.get("about", "")
    context = {
        "visit": visit,
        "line": BY_KEY.get(about),
        "photos": photos_of(visit).filter(about=about),
        "problems": [problem for problems in form.errors.values() for problem in problems],
        "count": WalkPage(visit).view(BY_KEY["photos"], swapped=True),
    }
    return render(request, "sites/walk/_photos.html", context, status=200 if form.is_valid() else 422)


def _one(
    request: HttpRequest, photo: SitePhoto, form: PhotoForm, status: int = 200, **more: Any
) -> HttpResponse:
    visit = photo.visit
    context = {"photo": photo, "visit": visit, "site": visit.site, "form": form, **more}
    context["map"] = photo_map(visit.site, person_of(request))
    return render(request, "sites/photo.html", context, status=status)
