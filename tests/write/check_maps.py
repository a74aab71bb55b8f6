#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Checks zones.geojson against RFC 7946 and zones.kml against the content models of the OGC KML 2.2 schema (07-147r2).

Debian has no package with the KML schema, so its element order, types and references are written out here, strictly:
an element that is not listed is a fault. Knows nothing of the program.

Usage: check_maps.py RESULTS_FOLDER
"""
import json
import os
import re
import sys
import xml.etree.ElementTree as tree

faults = []
KML = "{http://www.opengis.net/kml/2.2}"
FEATURE = ["name", "visibility", "open", "address", "phoneNumber", "Snippet", "description", "LookAt", "TimeSpan",
           "styleUrl", "Style", "StyleMap", "Region", "ExtendedData"]
CONTENT = {  # children in the order of the schema's sequences
    "kml": ["Document", "Placemark"],
    "Document": FEATURE + ["Schema", "Document", "Folder", "Placemark"],
    "Placemark": FEATURE + ["Point", "LineString", "Polygon", "MultiGeometry"],
    "Style": ["IconStyle", "LabelStyle", "LineStyle", "PolyStyle", "BalloonStyle", "ListStyle"],
    "LineStyle": ["color", "colorMode", "width"],
    "PolyStyle": ["color", "colorMode", "fill", "outline"],
    "BalloonStyle": ["bgColor", "textColor", "text"],
    "ExtendedData": ["Data"],
    "Data": ["displayName", "value"],
    "MultiGeometry": ["Polygon"],
    "Polygon": ["extrude", "tessellate", "altitudeMode", "outerBoundaryIs", "innerBoundaryIs"],
    "outerBoundaryIs": ["LinearRing"],
    "innerBoundaryIs": ["LinearRing"],
    "LinearRing": ["extrude", "tessellate", "altitudeMode", "coordinates"],
}
REPEATED = {"Style", "Document", "Folder", "Placemark", "Data", "Polygon", "innerBoundaryIs", "Schema"}


def expect(true, words):
    if not true:
        faults.append(words)


def signed_area(ring):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:])) / 2


def check_ring(ring, where):
    expect(len(ring) >= 4, f"{where}: a ring of {len(ring)} places, four are the least")
    expect(ring[0] == ring[-1], f"{where}: a ring that is not closed")
    for lon, lat in (place[:2] for place in ring):
        expect(-180 <= lon <= 180 and -90 <= lat <= 90, f"{where}: {lon}, {lat} is no longitude and latitude")


def check_box(box, places, where):
    expect(len(box) == 4 and all(box[0] <= x <= box[2] and box[1] <= y <= box[3] for x, y in places),
           f"{where}: places outside its bbox")


def check_geojson_geometry(shape, where):
    polygons = {"Polygon": lambda c: [c], "MultiPolygon": lambda c: c}.get(shape["type"])
    expect(polygons is not None and set(shape) <= {"type", "coordinates", "bbox"},
           f"{where}: {shape['type']}, {set(shape)}")
    places = []
    for polygon in polygons(shape["coordinates"]):
        for number, ring in enumerate(polygon):
            check_ring(ring, where)
            expect(all(len(place) == 2 for place in ring), f"{where}: places of other than two numbers")
            # 3.1.6: shells counter-clockwise, holes clockwise
            expect((signed_area(ring) > 0) == (number == 0), f"{where}: ring {number} runs the wrong way")
            places += ring
    return places


def check_geojson(file):
    text = open(file, encoding="utf-8").read()
    expect(not text.startswith("\ufeff"), "zones.geojson: a byte order mark")
    whole = json.loads(text, parse_constant=lambda word: faults.append(f"zones.geojson: {word} is no JSON number"))
    expect(whole["type"] == "FeatureCollection", "zones.geojson: no FeatureCollection")
    expect("crs" not in whole, "zones.geojson: crs was taken out of the format (section 4)")
    expect(not {"coordinates", "geometry", "properties"} & set(whole), "zones.geojson: members of other types (7.1)")
    expect(not re.search(r"\d\.\d{8,}[^\"]*\]", text), "zones.geojson: more than seven decimals in places")
    everything = []
    for number, feature in enumerate(whole["features"]):
        where = f"zones.geojson, feature {number}"
        expect(feature["type"] == "Feature" and isinstance(feature["properties"], dict), f"{where}: no feature")
        expect(not {"coordinates", "geometries", "features"} & set(feature), f"{where}: members of other types (7.1)")
        places = check_geojson_geometry(feature["geometry"], where)
        if "bbox" in feature:
            check_box(feature["bbox"], places, where)
        everything += places
    check_box(whole["bbox"], everything, "zones.geojson")
    return len(whole["features"])


def check_text(name, element, where):
    text = (element.text or "").strip()
    if name in ("color", "bgColor", "textColor"):
        expect(re.fullmatch("[0-9a-f]{8}", text), f"{where}: colour {text}")
    if name == "width":
        expect(float(text) >= 0, f"{where}: width {text}")
    if name == "coordinates":
        check_ring([tuple(map(float, place.split(","))) for place in text.split()], where)


def check_element(element, where):
    name = element.tag.removeprefix(KML)
    expect(element.tag.startswith(KML), f"{where}: {element.tag} is of another namespace")
    order = CONTENT.get(name, [])
    where = f"{where}/{name}"
    last = -1
    for child in element:
        word = child.tag.removeprefix(KML)
        if word not in order:
            faults.append(f"{where}: {word} does not belong here")
            continue
        place = order.index(word)
        expect(place > last or (place == last and word in REPEATED), f"{where}: {word} is out of its order")
        last = place
        check_element(child, where)
    if name in ("Polygon",):
        expect(len(element.findall(KML + "outerBoundaryIs")) == 1, f"{where}: no one outer boundary")
    check_text(name, element, where)


def check_kml(file):
    root = tree.parse(file).getroot()
    expect(root.tag == KML + "kml", "zones.kml: no kml element of version 2.2")
    check_element(root, "zones.kml")
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    expect(len(ids) == len(set(ids)), "zones.kml: an id stands twice")
    for word in ids:
        expect(re.fullmatch(r"[A-Za-z_][\w.-]*", word), f"zones.kml: {word} is no xs:ID")
    styles = {"#" + style.get("id") for style in root.iter(KML + "Style")}
    placemarks = list(root.iter(KML + "Placemark"))
    for placemark in placemarks:
        url = placemark.findtext(KML + "styleUrl")
        expect(url in styles, f"zones.kml: the style {url} is not there")
        expect("<table>" in (placemark.findtext(KML + "description") or ""), "zones.kml: a balloon without a table")
        names = [data.get("name") for data in placemark.iter(KML + "Data")]
        expect(len(names) == len(set(names)) > 0, "zones.kml: data without a name of their own")
    return len(placemarks)


def check_styles(folder):
    for name in ("zones.sld", "yield.sld"):
        root = tree.parse(os.path.join(folder, name)).getroot()
        expect(root.tag == "{http://www.opengis.net/sld}StyledLayerDescriptor" and root.get("version") == "1.0.0",
               f"{name}: no Styled Layer Descriptor 1.0.0")
        expect(root.findall(".//{http://www.opengis.net/sld}Rule"), f"{name}: no rule")
    for name in ("zones.qml", "yield.qml"):
        expect(tree.parse(os.path.join(folder, name)).getroot().tag == "qgis", f"{name}: no style")


def main(folder):
    in_geojson = check_geojson(os.path.join(folder, "zones.geojson"))
    in_kml = check_kml(os.path.join(folder, "zones.kml"))
    check_styles(folder)
    expect(in_geojson == in_kml > 0, f"{in_geojson} zones in zones.geojson, {in_kml} in zones.kml")
    for fault in faults:
        print("FAULT", fault)
    print(f"{in_kml} zones, {len(faults)} faults")
    sys.exit(1 if faults else 0)


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    main(sys.argv[1])
