"""Engine: many pieces of the same work, done by all cores of this machine or by machines of a cluster.

A piece is a name and some bytes, with what many pieces have in common sent to each worker once, and its answer is bytes
again, made by a pure verb: so the answers are the same on one core, on two and on a cluster, in whatever order they
come. A worker that is lost costs time and no answer; a piece that cannot be done is a failure of its own, and the
others go on.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.engine._cluster import Cluster, ClusterFiles
    from pavewright.engine._local import LocalCores, cores_here
    from pavewright.engine._program import program_digest
    from pavewright.engine._run import run_pieces
    from pavewright.engine._types import (
        Common,
        Engine,
        EngineLostError,
        EngineMissingError,
        Failed,
        FailureKind,
        OtherProgramError,
        Piece,
        Progress,
        RunStoppedError,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "Cluster",
    "ClusterFiles",
    "Common",
    "Engine",
    "EngineLostError",
    "EngineMissingError",
    "Failed",
    "FailureKind",
    "LocalCores",
    "OtherProgramError",
    "Piece",
    "Progress",
    "RunStoppedError",
    "cores_here",
    "program_digest",
    "run_pieces",
]
