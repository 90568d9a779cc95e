"""How the page keeps a job: it says kept only when the server has it, sends a batch again until it is answered, takes in
what others did and throws nothing away. Run by node against a small server that merges by the same rules.
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
import { applied, between } from './lib/operations.js';

// the browser
const kept = new Map();
let room = Infinity;
globalThis.localStorage = {
  get length() { return kept.size; },
  key: (place) => [...kept.keys()][place] ?? null,
  getItem: (name) => kept.get(name) ?? null,
  removeItem: (name) => kept.delete(name),
  setItem: (name, text) => { if (text.length > room) throw new DOMException('full', 'QuotaExceededError'); kept.set(name, text); },
};
globalThis.CustomEvent ??= class extends Event { constructor(name, more) { super(name); this.detail = more?.detail; } };

// the server: revisions, keys, and what goes wrong with the next answers
const server = { rev: 1, document: { n: 0 }, olds: [], keys: new Map(), asked: [], wrong: [], clashes: [] };
const told = (status, value) => ({ ok: status < 400, status, headers: { get: () => 'application/json' }, json: async () => value, text: async () => '' });
function next(document, key) {
  server.olds[server.rev] = server.document;
  server.rev += 1;
  server.document = document;
  server.keys.set(key, server.rev);
  return server.rev;
}
function merge(asked) {
  server.asked.push(asked);
  const { document, clashes } = server;
  if (server.keys.has(asked.key)) return told(200, { rev: server.rev, repeated: true, document, clashes });
  const made = applied(document, asked.operations), alone = asked.rev === server.rev && !made.clashes.length;
  clashes.push(...made.clashes);
  next(made.doc, asked.key);
  return told(200, { rev: server.rev, clashes: [...clashes], ...(alone ? {} : { document: made.doc }) });
}
function save(asked) {
  server.asked.push(asked);
  if (server.keys.has(asked.key)) return told(200, { rev: server.keys.get(asked.key) });
  if (asked.rev !== server.rev) return told(409, { rev: server.rev, message: 'changed elsewhere' });
  return told(200, { rev: next(JSON.parse(asked.document), asked.key) });
}
/** Somebody else. */
const other = (act) => { const after = structuredClone(server.document); act(after); next(after, `o${server.rev}`); };
globalThis.fetch = async (path, wishes) => {
  if (path.startsWith('/api/preview')) return new Promise((done) => { server.preview = () => done(told(200, { areas: [], stops: 0 })); });
  if (path.startsWith('/api/plan')) return told(200, { faults: [], plan: null });
  if (path === '/api/documents/up-to-date') {
    const { document } = JSON.parse(wishes.body);
    const { least_step_mm: min_step_mm, ...rest } = document;
    return told(200, { document: document.version === 1 ? { ...rest, version: 2, min_step_mm } : document });
  }
  const old = path.match(/revisions.(\\d+)$/);
  if (old) return told(200, { document: Number(old[1]) === server.rev ? server.document : server.olds[old[1]] });
  if (wishes.method === 'GET') return told(200, { rev: server.rev, document: server.document, clashes: [...server.clashes], archived: false });
  const wrong = server.wrong.shift();
  if (wrong === 'away') throw new TypeError('no network');
  if (wrong === 'full') return told(507, { message: 'There is no room left on the disk.' });
  if (wrong === 'no') return told(422, { message: 'It holds half of a sign.' });
  const answer = (wishes.method === 'PUT' ? save : merge)(JSON.parse(wishes.body));
  if (wrong === 'lost') throw new TypeError('the answer is lost');
  if (wrong === 'cut') return { ...answer, json: async () => { throw new SyntaxError('cut'); } };
  return answer;
};

/** The page is closed, and opened anew. */
async function opened(before) {
  if (before) {
    clearTimeout(before.saveTimer);
    for (const [name, text] of kept) if (name.startsWith('pavewright.unsent.j.')) kept.set(name, text.replace('"left":false', '"left":true'));
  }
  const state = new JobState('j');
  await state.open();
  return state;
}
const change = (state, n) => state.change(`to ${n}`, (doc) => { doc.n = n; });
const unsent = () => [...kept.keys()].filter((name) => name.startsWith('pavewright.unsent')).length;
const seen = (state) => ({ saving: state.saving, problem: state.problem, inBrowser: state.inBrowser, rev: state.rev, n: state.doc.n, at: server.document.n, kept: unsent(), clashes: state.clashes.length, keys: new Set(server.asked.map((one) => one.key)).size, sent: server.asked.length, past: state.past.length });
const out = [];
"""
END = "\nconsole.log(JSON.stringify(out)); process.exit(0);\n"


def run(tmp_path, script):
    for part in ("job", "lib"):
        shutil.copytree(STATIC / part, tmp_path / part)
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
def test_after_a_lost_answer_the_batch_counts_once_and_what_was_typed_meanwhile_follows(tmp_path, wrong):
    unsent, last = run(
        tmp_path,
        f"""
        const state = await opened();
        server.wrong = ['{wrong}'];
        change(state, 1); await state.save(); out.push(seen(state));
        change(state, 2); await state.save(); out.push(seen(state));
    """,
    )
    assert (unsent["saving"], unsent["at"], unsent["kept"]) == ("unsent", 1, 1)
    assert (last["saving"], last["at"], last["rev"], last["keys"], last["kept"]) == ("saved", 2, 3, 2, 0)
    assert last["sent"] == 3


def test_what_a_closed_page_had_not_sent_is_sent_by_the_next_one(tmp_path):
    same, more = run(
        tmp_path,
        """
        let state = await opened();
        server.wrong = ['lost'];
        change(state, 1); await state.save();
        state = await opened(state); out.push(seen(state));
        server.wrong = ['lost'];
        change(state, 2); await state.save();
        change(state, 3);
        state = await opened(state); out.push(seen(state));
    """,
    )
    assert (same["saving"], same["n"], same["rev"], same["kept"], same["sent"]) == ("saved", 1, 2, 0, 2)
    assert (more["saving"], more["n"], more["at"], more["rev"], more["kept"]) == ("saved", 3, 3, 4, 0)


def test_a_page_opened_while_nothing_can_be_saved_goes_on_with_what_was_typed(tmp_path):
    unsent, saved = run(
        tmp_path,
        """
        let state = await opened();
        server.wrong = ['lost', 'away'];
        change(state, 1); await state.save();
        change(state, 2);
        state = await opened(state); out.push(seen(state));
        await state.save(); out.push(seen(state));
    """,
    )
    assert (unsent["saving"], unsent["n"], unsent["kept"]) == ("unsent", 2, 1)
    assert (saved["saving"], saved["at"], saved["kept"]) == ("saved", 2, 0)


def test_what_another_page_is_about_to_send_is_left_to_it(tmp_path):
    (both,) = run(
        tmp_path,
        """
        const state = await opened();
        server.wrong = ['away'];
        change(state, 1); await state.save();
        const second = await opened(); out.push(seen(second));
    """,
    )
    assert (both["n"], both["kept"], both["sent"]) == (0, 1, 0)


def test_what_another_page_took_over_from_one_that_slept_is_sent_by_both_and_counts_once(tmp_path):
    (both,) = run(
        tmp_path,
        """
        const add = (n) => (doc) => { (doc.tapes ??= []).push({ start: 'A', end: 'B', length_mm: n }); };
        const asleep = await opened();
        asleep.change('one', add(1)); clearTimeout(asleep.saveTimer);
        const second = await opened(asleep);
        asleep.saveRunning = false;
        await asleep.save();
        asleep.change('two', add(2)); await asleep.save();
        out.push({ ...seen(asleep), tapes: server.document.tapes.map((one) => one.length_mm) });
    """,
    )
    assert (both["tapes"], both["saving"], both["kept"]) == ([1, 2], "saved", 0)


def test_what_somebody_else_did_meanwhile_is_taken_in_and_nobody_is_asked(tmp_path):
    both, later = run(
        tmp_path,
        """
        const state = await opened();
        other((doc) => { doc.tapes = [{ start: 'A', end: 'B', length_mm: 4000 }]; });
        change(state, 1); await state.save();
        out.push({ ...seen(state), tapes: state.doc.tapes, there: server.document });
        other((doc) => { doc.tapes.push({ start: 'A', end: 'C', length_mm: 5000 }); });
        server.wrong = ['lost'];
        change(state, 2); await state.save(); await state.save();
        out.push({ ...seen(state), tapes: state.doc.tapes.length });
    """,
    )
    assert both["tapes"] == both["there"]["tapes"] == [{"start": "A", "end": "B", "length_mm": 4000}]
    assert (both["n"], both["at"], both["clashes"], both["rev"]) == (1, 1, 0, 3)
    assert (later["n"], later["at"], later["tapes"], later["clashes"]) == (2, 2, 2, 0)


def test_two_values_of_one_field_are_left_to_a_person_with_the_first_one_standing(tmp_path):
    (state,) = run(
        tmp_path,
        """
        const state = await opened();
        other((doc) => { doc.n = 7; });
        change(state, 1); await state.save();
        out.push({ ...seen(state), clash: state.clashes[0] });
    """,
    )
    assert (state["saving"], state["n"], state["at"], state["kept"]) == ("saved", 7, 7, 0)
    assert (state["clash"]["kind"], state["clash"]["ours"], state["clash"]["theirs"]) == ("value", 7, 1)


def test_a_rename_by_somebody_else_is_followed_by_what_waits_and_by_what_is_undone(tmp_path):
    done, undone = run(
        tmp_path,
        """
        server.document = { n: 0, walls: [{ name: 'W', dpc_level_mm: 1 }], areas: [{ name: 'Patio' }] };
        const state = await opened();
        state.change('one', (doc) => { doc.walls[0].dpc_level_mm = 2; });
        await state.save();
        other((doc) => { doc.walls[0].name = 'North'; });
        server.wrong = ['away'];
        change(state, 1); await state.save();
        const saving = state.save();
        state.change('two', (doc) => { doc.walls[0].start = 'A'; doc.areas[0].away_from = 'W'; });
        await saving; await state.save();
        out.push({ ...seen(state), there: server.document });
        state.undo(); state.undo(); state.undo(); await state.save();
        out.push({ ...seen(state), there: server.document });
    """,
    )
    assert done["there"]["walls"] == [{"name": "North", "dpc_level_mm": 2, "start": "A"}]
    assert done["there"]["areas"] == [{"name": "Patio", "away_from": "North"}]
    assert done["clashes"] == 0
    assert undone["there"] == {"n": 0, "walls": [{"name": "North", "dpc_level_mm": 1}], "areas": [{"name": "Patio"}]}


def test_undo_survives_a_reload_and_leaves_what_somebody_else_did(tmp_path):
    undone, redone, kept_back = run(
        tmp_path,
        """
        let state = await opened();
        change(state, 1); await state.save();
        change(state, 2); await state.save();
        other((doc) => { doc.client = 'A. Sample'; });
        state = await opened(state);
        state.undo(); await state.save(); out.push({ ...seen(state), there: server.document });
        state = await opened(state);
        state.redo(); await state.save(); out.push({ ...seen(state), there: server.document });
        other((doc) => { doc.n = 9; });
        state = await opened(state);
        let words = ''; state.addEventListener('kept-back', (event) => { words = event.detail; });
        state.undo(); await state.save(); out.push({ ...seen(state), words });
    """,
    )
    assert undone["there"] == {"n": 1, "client": "A. Sample"}
    assert redone["there"] == {"n": 2, "client": "A. Sample"}
    assert (kept_back["n"], kept_back["at"], kept_back["words"]) == (9, 9, "to 2")


def test_a_batch_that_is_refused_says_why_and_goes_with_the_next_change(tmp_path):
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


def test_many_changes_without_signal_come_to_few_operations(tmp_path):
    (state,) = run(
        tmp_path,
        """
        const state = await opened();
        server.wrong = ['away'];
        for (let n = 1; n < 1200; n += 1) change(state, n);
        await state.save(); await state.save();
        out.push({ ...seen(state), ops: server.asked.at(-1).operations.length });
    """,
    )
    assert (state["at"], state["sent"]) == (1199, 1)
    assert state["ops"] <= 500


def test_rubbish_in_the_browser_is_left_alone(tmp_path):
    (state,) = run(
        tmp_path,
        """
        kept.set('pavewright.unsent.j', '{"rev": 1, "docu');
        kept.set('pavewright.unsent.j.x', '{"left": true, "outbox": 7}');
        kept.set('pavewright.history.j', '[[');
        const state = await opened(); out.push(seen(state));
    """,
    )
    assert (state["saving"], state["n"]) == ("saved", 0)


def test_what_was_typed_before_an_update_of_the_program_goes_on_as_operations(tmp_path):
    shown, sent = run(
        tmp_path,
        """
        const old = { version: 1, n: 4, least_step_mm: 120 };
        server.document = { version: 2, n: 0, min_step_mm: 100 };
        kept.set('pavewright.unsent.j', JSON.stringify({ rev: 1, document: old }));
        let state = await opened();
        out.push({ doc: state.doc, there: server.document, left: unsent() });
        // a save of the old page whose answer was lost is asked for as it was sent
        const sent = { key: 'k', rev: 2, note: 'x', document: { version: 1, n: 5, least_step_mm: 130 } };
        const last = { version: 1, n: 6, least_step_mm: 130 };
        kept.set('pavewright.unsent.j', JSON.stringify({ rev: 2, document: last, sent }));
        state = await opened(state);
        out.push({ doc: state.doc, there: server.document, put: server.asked.find((one) => one.document), left: unsent() });
    """,
    )
    assert shown["doc"] == shown["there"] == {"version": 2, "n": 4, "min_step_mm": 120}
    assert json.loads(sent["put"]["document"]) == {"version": 1, "n": 5, "least_step_mm": 130}
    assert sent["there"]["n"] == sent["doc"]["n"] == 6
    assert shown["left"] == sent["left"] == 0


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
