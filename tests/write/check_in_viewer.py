#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Opens a results folder in QGIS without a screen and checks what a person would see.

Every layer must load, zones must be coloured by method and labelled, segments by yield in classes, removed records by
reason, the raster by its side-car; column titles must show. Writes one picture per layer to look at.

Usage: check_in_viewer.py RESULTS_FOLDER PICTURE_FOLDER      (Debian: python3-qgis; see scripts/check_in_viewer.sh)
"""
import os
import sys

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from qgis.core import (QgsApplication, QgsMapRendererParallelJob, QgsMapSettings, QgsRasterLayer,  # noqa: E402
                       QgsVectorLayer)
from qgis.PyQt.QtCore import QSize  # noqa: E402
from qgis.PyQt.QtGui import QColor  # noqa: E402

faults = []


def expect(true, words):
    print(("ok    " if true else "FAULT ") + words)
    if not true:
        faults.append(words)


def draw(layers, file):
    settings = QgsMapSettings()
    settings.setLayers(layers)
    settings.setBackgroundColor(QColor(255, 255, 255))
    settings.setOutputSize(QSize(1400, 700))
    settings.setDestinationCrs(layers[0].crs())
    extent = layers[0].extent()
    extent.scale(1.05)
    settings.setExtent(extent)
    job = QgsMapRendererParallelJob(settings)
    job.start()
    job.waitForFinished()
    image = job.renderedImage()
    expect(image.save(file), f"draws {os.path.basename(file)}")
    colours = {image.pixel(x, y) for x in range(0, 1400, 5) for y in range(0, 700, 5)}
    expect(len(colours) > 2, f"{os.path.basename(file)} shows more than a blank ({len(colours)} colours)")


def check_vector(source, name, renderer, labels):
    layer = QgsVectorLayer(source, name, "ogr")
    expect(layer.isValid(), f"{name}: loads {layer.featureCount()} features")
    expect(layer.renderer().type() == renderer, f"{name}: renderer {layer.renderer().type()}, wanted {renderer}")
    expect(layer.labelsEnabled() == labels, f"{name}: labels {'on' if layer.labelsEnabled() else 'off'}")
    expect(layer.crs().authid() == "EPSG:4326", f"{name}: {layer.crs().authid()}")
    legend = [item.label() for item in layer.renderer().legendSymbolItems()]
    print("      legend:", "; ".join(legend))
    return layer


def main(results, pictures):
    os.makedirs(pictures, exist_ok=True)
    app = QgsApplication([], False)
    app.initQgis()
    package = os.path.join(results, "zones.gpkg")
    layers = {}
    for name, renderer, labels in [("fields", "singleSymbol", True), ("zones", "categorizedSymbol", True),
                                   ("segments", "graduatedSymbol", False), ("removed", "categorizedSymbol", False)]:
        layers[name] = check_vector(f"{package}|layername={name}", name, renderer, labels)
    zones = layers["zones"]
    expect(zones.attributeDisplayName(zones.fields().indexFromName("yield_t_ha")) == "Yield (t/ha)",
           "zones: the yield column has its title")
    known = {category.value() for category in zones.renderer().categories()}
    shown = {feature["method"] for feature in zones.getFeatures() if feature["method"]}
    expect(shown <= known, f"zones: every method has a colour ({', '.join(sorted(shown))})")
    inside = [any(r.lowerValue() <= f["yield_t_ha"] <= r.upperValue() for r in layers["segments"].renderer().ranges())
              for f in layers["segments"].getFeatures()]
    expect(all(inside), f"segments: every one of {len(inside)} falls into a class")
    geojson = check_vector(os.path.join(results, "zones.geojson"), "zones.geojson", "categorizedSymbol", True)
    kml = QgsVectorLayer(os.path.join(results, "zones.kml"), "zones.kml", "ogr")
    expect(kml.isValid() and kml.featureCount() == zones.featureCount(), "zones.kml: loads all zones")
    # its own styles, or zones.qml where that lies beside it
    expect(kml.renderer().type() in ("embeddedSymbol", "categorizedSymbol"), f"zones.kml: renderer {kml.renderer().type()}")
    raster = QgsRasterLayer(os.path.join(results, "yield.tif"), "yield")
    expect(raster.isValid(), f"yield.tif: loads, {raster.width()} x {raster.height()} cells")
    expect(raster.renderer().type() == "singlebandpseudocolor", f"yield.tif: renderer {raster.renderer().type()}")
    sld = QgsVectorLayer(f"{package}|layername=zones", "sld", "ogr")
    message, loaded = sld.loadSldStyle(os.path.join(results, "zones.sld"))
    expect(loaded, f"zones.sld: loads by hand ({message or sld.renderer().type()})")
    for name, drawn in [("zones", [zones]), ("segments", [layers["segments"]]), ("fields", [layers["fields"]]),
                        ("removed", [layers["removed"], layers["fields"]]), ("geojson", [geojson]), ("kml", [kml]),
                        ("yield", [raster])]:
        draw(drawn, os.path.join(pictures, name + ".png"))
    layers.clear()
    print(f"{len(faults)} faults")
    sys.stdout.flush()
    os._exit(1 if faults else 0)  # the library's own tear-down may crash without a screen


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(sys.argv[1], sys.argv[2])
