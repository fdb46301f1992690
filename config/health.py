"""Answer for load balancers: the process runs and the database answers."""

from django.db import DatabaseError, connection
from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe


@require_safe
def health(request: HttpRequest) -> HttpResponse:
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1")
    except DatabaseError:
        return HttpResponse("database does not answer\n", status=503, content_type="text/plain")
    return HttpResponse("ok\n", content_type="text/plain")
