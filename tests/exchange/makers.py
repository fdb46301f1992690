"""Files as other programs would write them, made here."""

import io
import json

import ezdxf


def dxf_bytes(draw, units=6, version="R2010"):
    document = ezdxf.new(version)
    document.header["$INSUNITS"] = units
    draw(document.modelspace(), document)
    out = io.StringIO()
    document.write(out)
    return out.getvalue().encode()


def geojson_bytes(*features, **members):
    return json.dumps({"type": "FeatureCollection", "features": list(features), **members}).encode()


def feature(kind, coordinates, **properties):
    return {
        "type": "Feature",
        "properties": properties,
        "geometry": {"type": kind, "coordinates": coordinates},
    }


def gpx_bytes(body, head=""):
    start = '<?xml version="1.0" encoding="UTF-8"?>'
    return (
        f'{start}{head}<gpx version="1.1" creator="test" xmlns="http://www.topografix.com/GPX/1/1">{body}</gpx>'
    ).encode()
