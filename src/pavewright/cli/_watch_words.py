"""The words of the watched folder."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class WatchWords(Catalogue):
    """The words of the watched folder."""

    watching: Sentence = Sentence("Watching {folder}; Ctrl+C ends it. Results go to {out}.")
    done: Sentence = Sentence("{name}: {what}")
    planned: Sentence = Sentence("planned, {papers} papers")
    points: Sentence = Sentence("{points} points")
    refused: Sentence = Sentence("not taken: {why}")
    changing: str = "is being written anew; it is taken when that is done"
    not_json: str = "This is no job document and no file of points that tells what it holds."
    ask_order: str = (
        "A CSV does not tell how its columns stand: bring it in with pavewright points FILE --order … --unit …"
    )
    ask_layer: str = "A drawing holds many layers: bring it in with pavewright points FILE --layer NAME."
    no_unit: str = "The file does not tell its unit: bring it in with pavewright points FILE --unit …"
    no_folder: Sentence = Sentence("{folder} is no folder: choose one that is there.")
    same: str = "The results need a folder that is not the one watched."


WORDS = WatchWords()
