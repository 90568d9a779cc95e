"""How the page keeps a job: it says kept only when the server has it, sends a save again until it is answered, and
tells a lost answer from a change made by somebody else. Run by node against a small server that follows the same rules.
"""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

STATIC = Path(__file__).parents[3] / "src" / "pavewright" / "web" / "static"
pytestmark = pytest.mark.skipif(shutil.which("node") is None, reason="no node")

AROUND = """
import { JobState } from './job/job-state.js';

// the browser
const kept = new Map();
let room = Infinity;
globalThis.localStorage = {
  getItem: (name) => kept.get(name) ?? null,
  removeItem: (name) => kept.delete(name),
  setItem: (name, text) => { if (text.length > room) throw new DOMException('full', 'QuotaExceededError'); kept.set(name, text); },
};
globalThis.CustomEvent ??= class extends Event { constructor(name, more) { super(name); this.detail = more?.detail; } };

// the server: revisions, keys, and what goes wrong with the next answers
const server = { rev: 1, document: { n: 0 }, keys: new Map(), asked: [], wrong: [] };
const told = (status, value) => ({ ok: status < 400, status, headers: { get: () => 'application/json' }, json: async () => value, text: async () => '' });
function save(asked) {
  server.asked.push(asked);
  if (server.keys.has(asked.key)) return told(200, { rev: server.keys.get(asked.key) });
  if (asked.rev !== server.rev) return told(409, { rev: server.rev, document: server.document, message: 'changed elsewhere' });
  server.rev += 1;
  server.document = JSON.parse(asked.document);
  server.keys.set(asked.key, server.rev);
  return told(200, { rev: server.rev });
}
globalThis.fetch = async (path, wishes) => {
  if (path.startsWith('/api/preview')) return new Promise((done) => { server.preview = () => done(told(200, { areas: [], stops: 0 })); });
  if (path.startsWith('/api/plan')) return told(200, { faults: [], plan: null });
  if (path === '/api/documents/up-to-date') {
    const { document } = JSON.parse(wishes.body);
    const { least_step_mm: min_step_mm, ...rest } = document;
    return told(200, { document: document.version === 1 ? { ...rest, version: 2, min_step_mm } : document });
  }
  if (wishes.method === 'GET') return told(200, { rev: server.rev, document: server.document, archived: false });
  const wrong = server.wrong.shift();
  if (wrong === 'away') throw new TypeError('no network');
  if (wrong === 'full') return told(507, { message: 'There is no room left on the disk.' });
  if (wrong === 'no') return told(422, { message: 'It holds half of a sign.' });
  const answer = save(JSON.parse(wishes.body));
  if (wrong === 'lost') throw new TypeError('the answer is lost');
  if (wrong === 'cut') return { ...answer, json: async () => { throw new SyntaxError('cut'); } };
  return answer;
};

const conflicts = [];
async function opened() {
  const state = new JobState('j');
  state.addEventListener('conflict', (event) => conflicts.push(event.detail));
  await state.open();
  return state;
}
const change = (state, n) => state.change(`to ${n}`, (doc) => { doc.n = n; });
const seen = (state) => ({ saving: state.saving, problem: state.problem, inBrowser: state.inBrowser, rev: state.rev, n: state.doc.n, at: server.document.n, kept: kept.size, conflicts: conflicts.length, keys: new Set(server.asked.map((one) => one.key)).size, sent: server.asked.length });
const out = [];
"""
END = "\nconsole.log(JSON.stringify(out)); process.exit(0);\n"


def run(tmp_path, script):
    for name in ("job/job-state.js", "job/unsent.js", "lib/api.js", "lib/words.js"):
        (tmp_path / name).parent.mkdir(exist_ok=True)
        shutil.copy(STATIC / name, tmp_path / name)
    (tmp_path / "package.json").write_text('{"type": "module"}', "utf-8")
    (tmp_path / "run.js").write_text(AROUND + script + END, "utf-8")
    done = subprocess.run(
        [shutil.which("node"), "run.js"], cwd=tmp_path, capture_output=True, text=True, timeout=60, check=False
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def test_a_browser_without_room_still_saves_and_says_when_it_does_not(tmp_path):
    saved, unsaved, again = run(
        tmp_path,
        """
        room = 0;
        const state = await opened();
        change(state, 1); await state.save(); out.push(seen(state));
        server.wrong = ['full'];
        change(state, 2); await state.save(); out.push(seen(state));
        await state.save(); out.push(seen(state));
    """,
    )
    assert (saved["saving"], saved["at"], saved["problem"]) == ("saved", 1, "")
    assert (unsaved["saving"], unsaved["at"], unsaved["inBrowser"]) == ("unsent", 1, False)
    assert unsaved["problem"] == "There is no room left on the disk."
    assert (again["saving"], again["at"], again["problem"]) == ("saved", 2, "")


@pytest.mark.parametrize("wrong", ["lost", "cut"])
def test_a_lost_answer_is_no_conflict_and_what_was_typed_meanwhile_follows(tmp_path, wrong):
    unsent, again, last = run(
        tmp_path,
        f"""
        const state = await opened();
        server.wrong = ['{wrong}'];
        change(state, 1); await state.save(); out.push(seen(state));
        change(state, 2); await state.save(); out.push(seen(state));
        await state.save(); out.push(seen(state));
    """,
    )
    assert (unsent["saving"], unsent["at"], unsent["kept"]) == ("unsent", 1, 1)
    assert (again["saving"], again["at"], again["rev"], again["keys"]) == ("waiting", 1, 2, 1)
    assert (last["saving"], last["at"], last["rev"], last["keys"], last["kept"]) == ("saved", 2, 3, 2, 0)
    assert last["conflicts"] == 0


def test_a_lost_answer_before_the_page_is_closed_is_no_conflict(tmp_path):
    same, more = run(
        tmp_path,
        """
        let state = await opened();
        server.wrong = ['lost'];
        change(state, 1); await state.save(); clearTimeout(state.saveTimer);
        state = await opened(); out.push(seen(state));
        server.wrong = ['lost'];
        change(state, 2); await state.save();
        change(state, 3); clearTimeout(state.saveTimer);
        state = await opened(); await state.save(); out.push(seen(state));
    """,
    )
    assert (same["saving"], same["n"], same["rev"], same["kept"], same["conflicts"]) == ("saved", 1, 2, 0, 0)
    assert (more["saving"], more["n"], more["at"], more["rev"], more["conflicts"]) == ("saved", 3, 3, 4, 0)


def test_a_page_opened_while_nothing_can_be_saved_goes_on_with_what_was_typed(tmp_path):
    unsent, saved = run(
        tmp_path,
        """
        let state = await opened();
        server.wrong = ['lost', 'away'];
        change(state, 1); await state.save(); clearTimeout(state.saveTimer);
        change(state, 2); clearTimeout(state.saveTimer);
        state = await opened(); out.push(seen(state));
        await state.save(); await state.save(); out.push(seen(state));
    """,
    )
    assert (unsent["saving"], unsent["n"], unsent["kept"], unsent["conflicts"]) == ("unsent", 2, 1, 0)
    assert (saved["saving"], saved["at"], saved["conflicts"]) == ("saved", 2, 0)


def test_a_change_by_somebody_else_is_a_conflict(tmp_path):
    first, reopened = run(
        tmp_path,
        """
        let state = await opened();
        server.rev = 2; server.document = { n: 7 };
        change(state, 1); await state.save(); out.push(seen(state));
        clearTimeout(state.saveTimer);
        state = await opened(); out.push(seen(state));
    """,
    )
    assert (first["saving"], first["conflicts"], first["at"]) == ("conflict", 1, 7)
    assert (reopened["saving"], reopened["conflicts"]) == ("conflict", 2)


def test_a_lost_answer_and_a_change_by_somebody_else_after_it(tmp_path):
    mine, both = run(
        tmp_path,
        """
        let state = await opened();
        server.wrong = ['lost'];
        change(state, 1); await state.save(); clearTimeout(state.saveTimer);
        server.rev = 3; server.document = { n: 7 };
        state = await opened(); out.push(seen(state));
        server.wrong = ['lost'];
        change(state, 8); await state.save();
        change(state, 9); clearTimeout(state.saveTimer);
        server.rev = 5; server.document = { n: 10 };
        state = await opened(); out.push(seen(state));
    """,
    )
    # what was saved stands among the revisions; the later change is shown, and nobody is asked
    assert (mine["saving"], mine["n"], mine["conflicts"]) == ("saved", 7, 0)
    # a change that was never sent meets a later one: that is for the user to settle
    assert (both["saving"], both["conflicts"]) == ("conflict", 1)


def test_a_save_that_is_refused_says_why_and_the_next_change_is_a_new_save(tmp_path):
    refused, saved = run(
        tmp_path,
        """
        const state = await opened();
        server.wrong = ['no'];
        change(state, 1); await state.save(); out.push(seen(state));
        change(state, 2); await state.save(); out.push(seen(state));
    """,
    )
    assert (refused["saving"], refused["problem"], refused["at"]) == ("refused", "It holds half of a sign.", 0)
    assert (saved["saving"], saved["problem"], saved["at"]) == ("saved", "", 2)


def test_rubbish_in_the_browser_is_left_alone(tmp_path):
    (state,) = run(
        tmp_path,
        """
        kept.set('pavewright.unsent.j', '{"rev": 1, "docu');
        const state = await opened(); out.push(seen(state));
    """,
    )
    assert (state["saving"], state["n"]) == ("saved", 0)


def test_what_was_typed_before_an_update_of_the_program_goes_on_in_the_version_of_the_server(tmp_path):
    shown, saved, sent = run(
        tmp_path,
        """
        const old = { version: 1, n: 4, least_step_mm: 120 };
        server.document = { version: 2, n: 0, min_step_mm: 100 };
        kept.set('pavewright.unsent.j', JSON.stringify({ rev: 1, document: old }));
        let state = await opened(); out.push({ ...state.doc, conflicts: conflicts.length });
        await state.save(); out.push(server.document);
        // a save of the old page whose answer was lost is asked for as it was sent
        const sent = { key: 'k', rev: 2, note: 'x', document: { version: 1, n: 5, least_step_mm: 130 } };
        const last = { version: 1, n: 6, least_step_mm: 130 };
        kept.set('pavewright.unsent.j', JSON.stringify({ rev: 2, document: last, sent }));
        state = await opened(); clearTimeout(state.saveTimer);
        out.push({ asked: server.asked.at(-1).document, doc: state.doc });
    """,
    )
    assert shown == {"version": 2, "n": 4, "min_step_mm": 120, "conflicts": 0}
    assert saved == {"version": 2, "n": 4, "min_step_mm": 120}
    assert json.loads(sent["asked"]) == {"version": 1, "n": 5, "least_step_mm": 130}
    assert sent["doc"] == {"version": 2, "n": 6, "min_step_mm": 130}


def test_an_answer_to_a_hand_that_let_go_already_does_not_stand_over_what_follows(tmp_path):
    late, timely = run(
        tmp_path,
        """
        const state = await opened();
        let asked = state.previewOf({ n: 1 });
        change(state, 2);
        server.preview(); await asked; out.push({ quick: state.quick });
        asked = state.previewOf({ n: 3 });
        server.preview(); await asked; out.push({ quick: state.quick });
    """,
    )
    assert late["quick"] is None
    assert timely["quick"] == {"areas": [], "stops": 0}
