"""Files for other programs over the server."""

from __future__ import annotations

import json

from pavewright.desk import demo_document


def test_a_building_model_and_map_features_are_answered_as_files(client):
    model = client.post("/api/exchange/ifc", content=demo_document())
    assert model.status_code == 200 and model.content.startswith(b"ISO-10303-21;")
    assert "finished-work.ifc" in model.headers["content-disposition"]
    placed = client.post("/api/exchange/geojson?latitude=51.5&longitude=-1.25&point=A", content=demo_document())
    assert json.loads(placed.content)["pavewright"]["georeferenced"] is True
    assert client.post("/api/exchange/geojson?local=1", content=demo_document()).status_code == 200


def test_what_cannot_be_answered_is_refused_in_words(client):
    assert "longitude and latitude" in client.post("/api/exchange/geojson", content=demo_document()).json()["message"]
    assert client.post("/api/exchange/geojson?latitude=north", content=demo_document()).status_code == 400
    assert client.post("/api/exchange/ply", content=demo_document()).status_code == 404
    assert client.post("/api/exchange/ifc", content=b"{}").status_code == 422
