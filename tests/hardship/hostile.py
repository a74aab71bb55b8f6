#!/usr/bin/env python3
"""Files made to do harm: each is refused, or read as plain data, in bounded memory and time, and nothing is fetched.

A listener on this machine counts every connection; the program runs with at most 3 GiB of address space and one minute.
By hand: tests/hardship/hostile.py build-release/src/cli/quartercut
"""
import json
import os
import shutil
import socket
import sqlite3
import struct
import subprocess
import sys
import threading
import xml.dom.minidom
import zipfile

import hardship
from hardship import DONE, INPUT, SEASON, SmallSeason, clearly_refused, need

MEMORY_MIB, SECONDS = 3072, 60
LAUGHS = "".join(f'<!ENTITY l{i} "{("&l%d;" % (i - 1)) * 10}">' for i in range(1, 12))
DOCTYPE = f'<!DOCTYPE x [<!ENTITY l0 "laughlaughlaughlaugh">{LAUGHS}]>'

program = None


class Listener:
    """Accepts whatever comes, counts it and answers nothing of use."""

    def __init__(self):
        self.socket = socket.create_server(("127.0.0.1", 0))
        self.port = self.socket.getsockname()[1]
        self.asked = []
        threading.Thread(target=self.serve, daemon=True).start()

    def serve(self):
        while True:
            caller, _ = self.socket.accept()
            caller.settimeout(2)
            try:
                self.asked.append(caller.recv(200).decode("latin-1").splitlines()[:1])
                caller.sendall(b"HTTP/1.0 404 no\r\nContent-Length: 0\r\n\r\n")
            except OSError:
                self.asked.append("?")
            caller.close()


listener = Listener()


def check(folder, text=None, **how):
    """`check` on a season; bounded."""
    season = folder / "season.toml"
    if text is not None:
        season.write_text(text)
    return program.run("check", season, timeout=SECONDS, memory_mib=MEMORY_MIB, **how)


def season_with(folder, old="", new="", **small):
    SmallSeason(**small).write(folder)
    text = SEASON.replace(old, new)
    need(not old or text != SEASON, f"'{old}' is not in the season")
    (folder / "season.toml").write_text(text)


def convert(source, target, *words):
    subprocess.run(["ogr2ogr", *words, str(target), str(source)], check=True, capture_output=True)


def points_layer(folder, target, *words):
    """The small season's records in a format of GDAL's."""
    convert(folder / "yield.csv", target, "-oo", "X_POSSIBLE_NAMES=lon", "-oo", "Y_POSSIBLE_NAMES=lat", "-oo",
            "KEEP_GEOM_COLUMNS=NO", "-oo", "AUTODETECT_TYPE=YES", "-a_srs", "EPSG:4326", *words)


def nothing_asked():
    need(not listener.asked, f"the network was reached: {listener.asked}")


def names_of_the_network(folder):
    """Names that GDAL would fetch, as files of points, of fields and of a raster."""
    url = f"http://127.0.0.1:{listener.port}"
    names = [f"/vsicurl/{url}/a.geojson", f"/vsicurl?url={url}/a.geojson", f"{url}/a.geojson", f"WFS:{url}",
             "/vsis3/bucket/a.gpkg", f"/vsizip//vsicurl/{url}/a.zip", f"/vsigzip//vsicurl/{url}/a.geojson.gz",
             f"/vsitar//vsicurl/{url}/a.tar", "/vsistdin/", "/vsimem/a.geojson", f"PG:host=127.0.0.1 port={listener.port}",
             f"GPKG:/vsicurl/{url}/a.gpkg", f"GeoJSON:{url}/a", f"GTIFF_DIR:1:/vsicurl/{url}/a.tif"]
    for name in names[::3] if program.short else names:
        for old in ('"yield.csv"', 'file = "fields.geojson"', 'file = "tickets.csv"'):
            new = json.dumps(name) if old[0] == '"' else f"file = {json.dumps(name)}"
            season_with(folder, old, new)
            clearly_refused(check(folder, env=dict(os.environ, AWS_S3_ENDPOINT=f"127.0.0.1:{listener.port}",
                                                   AWS_HTTPS="NO", AWS_NO_SIGN_REQUEST="YES")), INPUT)
    season_with(folder, "[tickets]", f'[strata]\nkind = "raster"\nclasses = 3\nfile = "/vsicurl/{url}/a.tif"\n[tickets]')
    clearly_refused(check(folder), INPUT)
    nothing_asked()


def files_that_are_really_there_under_such_names(folder):
    """A file called as GDAL calls its other ways in is read as the plain file that it is."""
    season_with(folder, 'file = "fields.geojson"', 'file = "vsicurl/http:/127.0.0.1/fields.geojson"')
    (folder / "vsicurl/http:/127.0.0.1").mkdir(parents=True)
    shutil.move(folder / "fields.geojson", folder / "vsicurl/http:/127.0.0.1/fields.geojson")
    said = program.run("check", "season.toml", cwd=folder)
    need(said.code == DONE, f"a plain file was refused: {said!r}")
    nothing_asked()


def indirection(folder):
    """Formats that only point elsewhere are not among those read, whatever their ending."""
    SmallSeason().write(folder)
    url = f"http://127.0.0.1:{listener.port}"
    vrt = ('<OGRVRTDataSource><OGRVRTLayer name="fields"><SrcDataSource>fields.geojson</SrcDataSource>'
           '</OGRVRTLayer></OGRVRTDataSource>')
    wfs = f'<OGRWFSDataSource><URL>{url}/wfs?</URL></OGRWFSDataSource>'
    raster = (f'<VRTDataset rasterXSize="9" rasterYSize="9"><VRTRasterBand dataType="Byte" band="1"><SimpleSource>'
              f'<SourceFilename>/vsicurl/{url}/a.tif</SourceFilename></SimpleSource></VRTRasterBand></VRTDataset>')
    esri = json.dumps({"displayFieldName": "", "geometryType": "esriGeometryPolygon", "features": [], "url": url})
    for body in (vrt, wfs, raster, esri):
        for name in ("a.vrt", "a.gml") if program.short else ("a.vrt", "a.xml", "a.gpkg", "a.geojson", "a.gml", "a.shp"):
            (folder / name).write_text(body)
            clearly_refused(check(folder, SEASON.replace("fields.geojson", name)), INPUT)
    (folder / "a.tif").write_text(raster)
    text = SEASON.replace("[tickets]", '[strata]\nkind = "raster"\nclasses = 3\nfile = "a.tif"\n[tickets]')
    clearly_refused(check(folder, text), INPUT)
    nothing_asked()


def references_inside_files(folder):
    """GML schemas and links, KML network links, and a coordinate system by address."""
    SmallSeason().write(folder)
    url = f"http://127.0.0.1:{listener.port}"
    convert(folder / "fields.geojson", folder / "fields.gml", "-f", "GML")
    gml = (folder / "fields.gml").read_text()
    gml = gml.replace("xsi:schemaLocation=\"", f'xsi:schemaLocation="{url}/s {url}/s.xsd ')
    gml = gml.replace("<gml:featureMember>", f'<gml:featureMember xlink:href="{url}/f#x">', 1)
    (folder / "far.gml").write_text(gml.replace("<ogr:FeatureCollection",
                                                '<ogr:FeatureCollection xmlns:xlink="http://www.w3.org/1999/xlink"'))
    kml = ('<kml xmlns="http://www.opengis.net/kml/2.2"><Document><NetworkLink><Link><href>'
           f'{url}/a.kml</href></Link></NetworkLink></Document></kml>')
    (folder / "far.kml").write_text(kml)
    crs = (folder / "fields.geojson").read_text().replace(
        '"type":"FeatureCollection",', '"type":"FeatureCollection","crs":{"type":"link","properties":{"href":"%s/crs",'
        '"type":"proj4"}},' % url, 1)
    (folder / "far.geojson").write_text(crs)
    for name in ("far.gml", "far.kml", "far.geojson"):
        said = check(folder, SEASON.replace('"fields.geojson"', f'"{name}"'))
        need(said.code in (DONE, INPUT), f"{name}: {said!r}")
    nothing_asked()


def entities_without_end(folder):
    """Ten to the eleventh laughs in KML, GML and task data."""
    SmallSeason().write(folder)
    kml = (f'<?xml version="1.0"?>{DOCTYPE}<kml xmlns="http://www.opengis.net/kml/2.2"><Document><Placemark>'
           '<name>&l11;</name><Point><coordinates>-106,52</coordinates></Point></Placemark></Document></kml>')
    gml = (f'<?xml version="1.0"?>{DOCTYPE}<gml:FeatureCollection xmlns:gml="http://www.opengis.net/gml">'
           '<gml:featureMember><f><name>&l11;</name></f></gml:featureMember></gml:FeatureCollection>')
    task = (f'<?xml version="1.0"?>{DOCTYPE}<ISO11783_TaskData VersionMajor="4"><TSK A="&l11;"/></ISO11783_TaskData>')
    local = ('<?xml version="1.0"?><!DOCTYPE x [<!ENTITY l11 SYSTEM "file:///etc/passwd">]>'
             '<ISO11783_TaskData><TSK A="1">&l11;</TSK></ISO11783_TaskData>')
    for name, body in (("a.kml", kml), ("a.gml", gml), ("TASKDATA.XML", task), ("b.xml", local)):
        (folder / name).write_text(body)
        for old in ('"yield.csv"', '"fields.geojson"'):
            said = check(folder, SEASON.replace(old, f'"{name}"'))
            clearly_refused(said, INPUT)
            need("root:" not in said.err + said.out, "a file of the machine was shown")


def write_zip(path, members):
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED, compresslevel=9) as archive:
        for name, body in members:
            if callable(body):
                with archive.open(name, "w", force_zip64=True) as stream:
                    body(stream)
            else:
                archive.writestr(name, body)


def zeros(mib, head=b"", fill=b"\0"):
    def write(stream):
        stream.write(head)
        block = fill * (1 << 20)
        for _ in range(mib):
            stream.write(block)
    return write


def archives_without_bottom(folder):
    """A few kilobytes that unpack to gigabytes, as zipped shapes, text and KMZ; archives of very many members."""
    SmallSeason().write(folder)
    size = 600 if program.short else 6000
    shape = struct.pack(">7i", 9994, 0, 0, 0, 0, 0, 2 ** 30) + struct.pack("<2i8d", 1000, 5, *[0.0] * 8)
    write_zip(folder / "bomb_shape.zip", [("a.shp", zeros(size, shape)), ("a.shx", zeros(20, shape)),
                                          ("a.dbf", zeros(20))])
    write_zip(folder / "bomb_text.zip", [("a.geojson", zeros(size, b'{"type":"FeatureCollection","features":[', b" "))])
    head = b'<kml xmlns="http://www.opengis.net/kml/2.2"><Document><description>'
    write_zip(folder / "bomb.kmz", [("doc.kml", zeros(size, head, b"a"))])
    write_zip(folder / "many.zip", [(f"d{i}/a{i}.shp", b"") for i in range(20000)])
    for name in ("bomb_shape.zip", "bomb_text.zip", "bomb.kmz", "many.zip"):
        for old in ('"yield.csv"', '"fields.geojson"'):
            clearly_refused(check(folder, SEASON.replace(old, f'"{name}"')), INPUT, "archive")


def archives_that_leave_their_folder(folder):
    """Members called ../ or /etc: nothing is ever unpacked to disk, so nothing is written outside."""
    inner = folder / "deep" / "er"
    SmallSeason().write(inner)
    body = (inner / "fields.geojson").read_bytes()
    before = hardship.contents(folder)
    for name in ("../../fields.geojson", "/etc/fields.geojson", "..\\fields.geojson"):
        write_zip(inner / "a.zip", [(name, body)])
        said = check(inner, SEASON.replace('"fields.geojson"', '"a.zip"'))
        need(said.code in (DONE, INPUT), f"{name}: {said!r}")
        os.remove(inner / "a.zip")
        (inner / "season.toml").write_text(SEASON)
        need(hardship.contents(folder) == before, f"{name}: files outside have changed")


def headers_that_promise_billions(folder):
    """Counts in headers are promises: memory follows the bytes that are there."""
    SmallSeason().write(folder)
    points_layer(folder, folder / "a.fgb", "-f", "FlatGeobuf")
    points_layer(folder, folder / "a.gpkg", "-f", "GPKG", "-nln", "a")
    points_layer(folder, folder / "a.shp", "-f", "ESRI Shapefile")
    fgb = bytearray((folder / "a.fgb").read_bytes())
    at = fgb.find(struct.pack("<Q", 480))
    need(at > 0, "the count of features was not found in the FlatGeobuf header")
    fgb[at:at + 8] = struct.pack("<Q", 2 * 10 ** 9)
    (folder / "lies.fgb").write_bytes(fgb)
    lies = fgb[:at] + struct.pack("<Q", 2 ** 62) + fgb[at + 8:]
    (folder / "lies2.fgb").write_bytes(lies)
    shutil.copy(folder / "a.gpkg", folder / "lies.gpkg")
    with sqlite3.connect(folder / "lies.gpkg") as base:
        base.execute("update gpkg_ogr_contents set feature_count = 4000000000000000000")
        base.execute("update gpkg_contents set min_x=-1e308, max_x=1e308, min_y=-1e308, max_y=1e308")
    for ending in ("shp", "shx", "dbf", "prj"):
        shutil.copy(folder / f"a.{ending}", folder / f"lies.{ending}")
    dbf = bytearray((folder / "lies.dbf").read_bytes())
    dbf[4:8] = struct.pack("<I", 2 ** 31 - 2)
    (folder / "lies.dbf").write_bytes(dbf)
    for ending in ("shp", "shx"):
        shape = bytearray((folder / f"lies.{ending}").read_bytes())
        shape[24:28] = struct.pack(">i", 2 ** 31 - 2)
        (folder / f"lies.{ending}").write_bytes(shape)
    for name in ("lies.fgb", "lies2.fgb", "lies.gpkg", "lies.shp"):
        said = check(folder, SEASON.replace('"yield.csv"', f'"{name}"').replace('crs   = "EPSG:4326"\n', ""))
        need(said.code in (DONE, INPUT), f"{name}: {said!r}")
        if said.code == INPUT:
            clearly_refused(said, INPUT)


def rasters_that_promise_billions(folder):
    """Rasters of 10^9 x 10^9 cells, and one whose overview is an address of memory or of the network."""
    SmallSeason().write(folder)
    grid = ("ncols 1000000000\nnrows 1000000000\nxllcorner -106.6\nyllcorner 52.0\ncellsize 0.000000001\n"
            "NODATA_value -9999\n1 2 3\n")
    (folder / "a.asc").write_text(grid)
    small = "ncols 60\nnrows 60\nxllcorner -106.51\nyllcorner 52.09\ncellsize 0.0005\nNODATA_value -9999\n"
    (folder / "b.asc").write_text(small + "\n".join(" ".join(str((i + j) % 9) for i in range(60)) for j in range(60)))
    (folder / "b.prj").write_text('GEOGCS["WGS 84",DATUM["WGS_1984",SPHEROID["WGS 84",6378137,298.257223563]],'
                                  'PRIMEM["Greenwich",0],UNIT["degree",0.0174532925199433]]')
    url = f"/vsicurl/http://127.0.0.1:{listener.port}/a.tif"
    for far in (url, "MEM:::DATAPOINTER=4096,PIXELS=60,LINES=60"):
        (folder / "b.asc.aux.xml").write_text('<PAMDataset><Metadata domain="OVERVIEWS"><MDI key="OVERVIEW_FILE">'
                                              f'{far}</MDI></Metadata></PAMDataset>')
        for name in ("a.asc", "b.asc"):
            text = SEASON.replace("[tickets]", f'[strata]\nkind = "raster"\nclasses = 3\nfile = "{name}"\n[tickets]')
            said = check(folder, text)
            need(said.code in (DONE, INPUT), f"{name}: {said!r}")
    nothing_asked()


def markup_in_names(folder):
    """Names that are HTML, XML, CSV formulas or terminal commands reach every output escaped."""
    evil = "<script>alert(1)</script><img src=x onerror=alert(2)>\" ' & ]]> "
    red = "\x1b[31mred\x07"
    SmallSeason(names=[evil.strip(), "=cmd|'/c calc'!A1"]).write(folder)
    said = program.run("compare", folder / "season.toml")
    need(said.code == DONE, f"{said!r}")
    page = (folder / "results" / "report.html").read_text()
    need("<script>alert" not in page and "<img src=x" not in page, "the page holds markup out of a field's name")
    need("&lt;script&gt;alert(1)" in page, "the page does not show the name")
    json.loads((folder / "results" / "comparison.json").read_text())
    kml = xml.dom.minidom.parse(str(folder / "results" / "zones.kml"))
    values = {node.firstChild.nodeValue if len(node.childNodes) == 1 else "".join(c.nodeValue for c in node.childNodes)
              for node in kml.getElementsByTagName("value") if node.childNodes}
    need(evil.strip().replace("]]>", "]] >") in values, f"the name is another one in the KML file: {sorted(values)[:3]}")
    cells = (folder / "results" / "comparison.csv").read_text()
    need("\n=cmd" not in cells and '\n"=cmd' not in cells and ",=cmd" not in cells, "a formula stands in the table")
    shutil.rmtree(folder / "results")
    SmallSeason(names=[red, "<![CDATA[<b>\x01"]).write(folder)
    said = program.run("compare", folder / "season.toml")
    need("\x1b[31m" not in said.out + said.err and "\x07" not in said.out + said.err,
         f"a name commands the terminal: {said.out[:400]!r}")
    need(said.code == DONE, f"{said!r}")
    xml.dom.minidom.parse(str(folder / "results" / "zones.kml"))


def main():
    global program
    given = hardship.arguments(__doc__)
    program = hardship.Program(given.program)
    program.short = given.short
    return hardship.run_checks([names_of_the_network, files_that_are_really_there_under_such_names, indirection,
                                references_inside_files, entities_without_end, archives_without_bottom,
                                archives_that_leave_their_folder, headers_that_promise_billions,
                                rasters_that_promise_billions, markup_in_names])


if __name__ == "__main__":
    sys.exit(main())
