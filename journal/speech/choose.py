"""Which engine listens, and why: option, then environment, then what lies in the job, then the default."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from journal.errors import EngineError
from journal.speech.base import Recogniser

if TYPE_CHECKING:
    from journal.speech.checked import Opinion
    from journal.speech.model_cache import Merge

ENGINES = ("moonshine", "vosk", "scripted")


@dataclass(frozen=True, slots=True)
class EngineChoice:
    """The engine in use, its model where it has one of the user's, and the words that say why it is this one."""

    name: str
    because: str
    folder: Path | None = None


@dataclass(frozen=True, slots=True)
class EngineHere:
    """An engine as it stands on this machine."""

    name: str
    model: str
    ready: bool
    used: bool
    note: str


def choose(name: str | None = None, vosk_model: Path | None = None, job: Path | None = None) -> EngineChoice:
    """The engine to use and why. EngineError for a name that is none, and for Vosk without a model folder."""
    because = "given by --engine"
    if name is None and (name := os.environ.get("JOURNAL_ENGINE") or None):
        because = "given by JOURNAL_ENGINE"
    if name is not None and name not in ENGINES:
        raise EngineError(f"there is no engine '{name}'", hint=f"Engines: {', '.join(ENGINES)}.")
    if name in ("moonshine", "scripted"):
        return EngineChoice(name, because)
    folder, found = _vosk_folder(vosk_model, job)
    if name == "vosk":
        if folder is None:
            raise EngineError(
                "the engine vosk needs a model folder, and none is given or in the job",
                hint="Give it with --vosk-model FOLDER or JOURNAL_VOSK_MODEL, or get one: journal model get NAME",
            )
        return EngineChoice("vosk", f"{because}; its model is {found}", folder)
    if folder is not None:
        return EngineChoice("vosk", f"a Vosk model is {found}", folder)
    return EngineChoice("moonshine", "the default: no other engine is asked for")


def choose_engine(
    name: str | None = None,
    vosk_model: Path | None = None,
    job: Path | None = None,
    *,
    progress: Callable[[str], None] | None = None,
    adapter: bool = True,
    second_opinion: bool = True,
    model: str | None = None,
) -> Recogniser:
    """The engine of `choose`, loaded. `adapter=False` leaves the default engine as its makers trained it.

    `second_opinion=False` leaves out the check of its figures by a second engine. `model` asks for the default engine's
    "base" or "tiny" instead of the better one here.
    """
    choice = choose(name, vosk_model, job)
    if choice.name == "scripted":
        from journal.speech.scripted import ScriptedRecogniser

        return ScriptedRecogniser()
    if choice.folder is not None:
        from journal.speech.vosk_engine import VoskEngine

        return VoskEngine(choice.folder)
    from journal.speech.model_cache import shipped_model

    shipped = shipped_model(model)
    opinion = _opinion() if second_opinion else None  # before the rest: a process of its own loads meanwhile
    from journal.speech.checked import CheckedRecogniser
    from journal.speech.moonshine import Moonshine

    moonshine = Moonshine(shipped, merge=_shipped_merge(shipped.kind) if adapter else None, progress=progress)
    return CheckedRecogniser(moonshine, opinion)


def _opinion() -> Opinion:
    """The second opinion: beside this process where there is a core for it."""
    if (os.cpu_count() or 1) > 1:
        from journal.speech.beside import OpinionBeside

        return OpinionBeside()
    from journal.speech.second_opinion import SecondOpinion

    return SecondOpinion()


def _shipped_merge(kind: str) -> Merge | None:
    """What merges the adapter that ships for this model; None where none does."""
    from journal.speech.adapter import shipped_adapter
    from journal.speech.adapter.merge import merge_adapter
    from journal.speech.model_cache import Merge, hash_of

    adapter = shipped_adapter(kind)
    if adapter is None:
        return None
    return Merge(f"adapted {hash_of(adapter)[:8]}", lambda graph: merge_adapter(graph, adapter))


def engines_here(name: str | None = None, vosk_model: Path | None = None, job: Path | None = None) -> list[EngineHere]:
    """Every engine, its model here, and which one is used and why."""
    from journal.speech.model_cache import shipped_models

    used = choose(name, vosk_model, job)

    def row(engine: str, model: str, *, ready: bool, missing: str = "") -> EngineHere:
        chosen = engine == used.name
        note = f"{used.because}; there is no such folder" if not ready and used.folder else used.because
        return EngineHere(engine, model, ready, chosen, note if chosen else missing)

    models = shipped_models()
    folder, _ = _vosk_folder(vosk_model, job)
    return [
        row(
            "moonshine",
            f"{models[0].kind} {models[0].package_version}" if models else "",
            ready=bool(models),
            missing="" if models else "its model is not installed: pip install moonshine-cpp",
        ),
        row(
            "vosk",
            str(folder or ""),
            ready=folder is not None and folder.is_dir(),
            missing="" if folder else "no model folder: journal model get NAME",
        ),
        row("scripted", "the text beside each recording", ready=True),
    ]


def _vosk_folder(option: Path | None, job: Path | None) -> tuple[Path | None, str]:
    """The model folder in use, and where it was found."""
    if option is not None:
        return option.expanduser(), "given by --vosk-model"
    if given := os.environ.get("JOURNAL_VOSK_MODEL"):
        return Path(given).expanduser(), "given by JOURNAL_VOSK_MODEL"
    if job is not None:
        folders = sorted(path for path in job.glob("vosk-model*") if path.is_dir())
        if folders:
            return folders[0], f"in the job: {folders[0]}"
    return None, ""
