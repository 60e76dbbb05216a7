"""What the five screens share: the bars, questions asked in workers, and being told when the job changed."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, ClassVar, TypeVar, cast

from textual.app import ComposeResult
from textual.screen import Screen
from textual.worker import Worker, WorkerState

from journal.session import Session
from journal.tui.bars import StatusLine, TopBar
from journal.tui.key_line import KeyLine

if TYPE_CHECKING:
    from journal.tui.app import ReviewApp

T = TypeVar("T")
_PATIENCE = 0.5  # seconds after which a person is told what is being worked on


class JobScreen(Screen[None]):
    """A screen on the job. It implements `panes` and `load`, and asks slow questions with `ask_job`."""

    mode: ClassVar[str] = ""

    def __init__(self) -> None:
        super().__init__()
        self._then: dict[Worker[Any], Callable[[Any], None]] = {}
        self._seen = -1
        self._css_update_count = self.app._css_update_count  # it is styled as it is made, and not once more by Textual

    @property
    def review(self) -> ReviewApp:
        """The app, as what it is."""
        return cast("ReviewApp", self.app)

    @property
    def session(self) -> Session:
        """The open job, for what is quick."""
        return self.review.session

    @property
    def status(self) -> StatusLine:
        """The line at the bottom."""
        return self.query_one(StatusLine)

    def remark(self, text: str) -> None:
        """A remark for a few seconds, in the place of the keys."""
        self.query_one(KeyLine).remark(text)

    def compose(self) -> ComposeResult:
        """The bars with the screen's own panes between them."""
        yield TopBar(self.mode, self.session.folder.name)
        yield from self.panes()
        yield StatusLine()
        yield KeyLine()

    def panes(self) -> ComposeResult:
        """What the screen shows."""
        raise NotImplementedError

    def load(self) -> None:
        """Read the job and show it."""
        raise NotImplementedError

    def unkept(self) -> str:
        """What has been typed and not kept, in words; "" where nothing has."""
        return ""

    def on_screen_resume(self) -> None:
        """Read the job again where it changed since this screen was last seen."""
        self.job_changed()

    def show_changed(self, memos: tuple[int, ...]) -> bool:
        """Show these memos as they are now; False where the screen has to read the job again to do so."""
        return False

    def job_changed(self, memos: tuple[int, ...] = ()) -> None:
        """Show the job as it is now, where only these memos changed since it was last read them; typing is left alone."""
        if self._seen == self.review.revision:
            return
        if self.unkept():
            self.status.tell("the job changed in another window; it is shown once you keep or leave this")
            return
        only_these = self._seen == self.review.revision - 1 and bool(memos)
        self._seen = self.review.revision
        if not (only_these and self.show_changed(memos)):
            self.load()

    # ---- questions that take a moment ------------------------------------------------------------------------------

    def ask_job(
        self, what: str, question: Callable[[Session], T], then: Callable[[T], None], *, group: str = "ask"
    ) -> None:
        """Answer a question in a worker and hand the answer to `then`; a newer question of the group takes its place."""

        def asked() -> T:
            return self.review.reader.ask(question)

        self.in_worker(what, asked, then, group=group)

    def in_worker(self, what: str, work: Callable[[], T], then: Callable[[T], None], *, group: str) -> None:
        """Do something slow in a worker; what takes more than half a second is told, and so is a failure."""
        worker: Worker[Any] = self.run_worker(
            work, name=what, group=group, thread=True, exclusive=True, exit_on_error=False
        )
        self._then[worker] = then
        self.set_timer(_PATIENCE, lambda: self._still(worker))

    def _still(self, worker: Worker[Any]) -> None:
        if worker.state in (WorkerState.PENDING, WorkerState.RUNNING):
            self.status.busy(worker.name)

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """Hand on what a worker found, or show why it failed."""
        if event.state in (WorkerState.PENDING, WorkerState.RUNNING):
            return
        then = self._then.pop(event.worker, None)
        if not any(worker.state == WorkerState.RUNNING for worker in self._then):
            self.status.busy(None)
        if event.state == WorkerState.ERROR and event.worker.error is not None:
            self.review.tell_error(event.worker.error)
        elif event.state == WorkerState.SUCCESS and then is not None:
            then(event.worker.result)
