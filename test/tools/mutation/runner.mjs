/** Tries mutants in worker threads: for each, the tests that come to its place, those of its own room first. */
import process from 'node:process';
import { Worker } from 'node:worker_threads';

/** Milliseconds of computing that any test may take with a mutant, and how many times its own time without one. */
const PATIENCE = 2000;
const TIMES = 10;
/** Milliseconds that a test takes at most in a quick run, where there are others. */
const QUICK = 300;
/** Milliseconds after which a thread that does not compute is given up. */
const IDLE = 60_000;
/** How many tests that noticed other mutants of a place are tried before all others, and after them what their files hold. */
const FIRST = 5;
const WORKER = new URL('worker.mjs', import.meta.url);

/** A worker thread that answers one question at a time and is started again when it had to be ended. */
class Thread {
  constructor(data, jobs = 1) {
    this.jobs = jobs;
    this.data = { ...data, at: new SharedArrayBuffer(4) };
    this.began = new Int32Array(this.data.at);
  }

  async start() {
    this.worker = new Worker(WORKER, {
      workerData: this.data,
      resourceLimits: { maxOldGenerationSizeMb: 2000 },
    });
    await this.answer(
      () => {},
      () => 60_000,
    );
  }

  /**
   * The answer to what `ask` sends; `{ ended }` when the thread dies or computes longer than `patience(begun)` ms on one
   * test. The computing time of all threads is counted, so that a busy machine makes no test seem endless.
   */
  answer(ask, patience) {
    const computed = () => {
      const { user, system } = process.cpuUsage();
      return (user + system) / 1000 / this.jobs;
    };
    return new Promise((settle) => {
      let [begun, since, wall] = [-1, computed(), performance.now()];
      const { worker } = this;
      const end = (result) => {
        clearInterval(watch);
        for (const [event, listener] of Object.entries(listeners)) worker.off(event, listener);
        settle(result);
      };
      const listeners = {
        message: end,
        error: (error) => end({ ended: String(error.message) }),
        exit: () => end({ ended: 'the thread ended' }),
      };
      const watch = setInterval(() => {
        if (this.began[0] !== begun) [begun, since, wall] = [this.began[0], computed(), performance.now()];
        const allowed = patience(begun);
        if (computed() - since > allowed || performance.now() - wall > Math.max(IDLE, 10 * allowed))
          end({ ended: 'it does not come to an end' });
      }, 100);
      for (const [event, listener] of Object.entries(listeners)) worker.on(event, listener);
      ask();
    });
  }

  async ask(message, patience = () => 300_000) {
    if (!this.worker) await this.start();
    this.began[0] = 0;
    const result = await this.answer(() => this.worker.postMessage(message), patience);
    if (result.ended !== undefined) await this.stop();
    return result;
  }

  async stop() {
    await this.worker?.terminate();
    this.worker = undefined;
  }
}

export class Runner {
  constructor(script, { runs, seed, quick }) {
    this.data = { ...script, runs, seed };
    /** Whether only short tests count, and each once. */
    this.quick = quick;
    /** By mutant: the tests that come to it. */
    this.reached = new Map();
    /** By file: its tests that pass. */
    this.tests = new Map();
    /** By the place of a mutant: the tests that noticed others there, the last first. A table often has one test, or one file. */
    this.noticing = new Map();
  }

  /** Runs all tests without a mutant and notes what each comes to. */
  async survey(files) {
    const thread = new Thread(this.data);
    const failures = [];
    let tests = 0;
    for (const file of files) {
      const { survey, failed, ended } = await thread.ask({ survey: file });
      if (!survey) failures.push(`${file}: ${failed ?? ended}`);
      for (const [test, { name, ms, touched, failed: why, full, cut }] of (survey?.tests ?? []).entries()) {
        tests++;
        if (why !== null) failures.push(`${file} › ${name}: ${why}`);
        else
          this.note(new Set([...survey.loading, ...touched]), {
            file,
            test,
            name,
            ms,
            full,
            cut: cut && !full,
          });
      }
    }
    await thread.stop();
    return { failures, tests };
  }

  note(touched, test) {
    const all = this.tests.get(test.file);
    if (all) all.push(test);
    else this.tests.set(test.file, [test]);
    for (const id of touched) {
      const known = this.reached.get(id);
      if (known) known.push(test);
      else this.reached.set(id, [test]);
    }
  }

  planOf({ id, file, in: place }) {
    const room = `test/${file.split('/')[1]}/`;
    const before = this.noticing.get(`${file}\n${place}`) ?? [];
    const rank = (test) => {
      if (before.includes(test)) return 0;
      if (before.some(({ file: other }) => other === test.file)) return 1;
      return test.file.startsWith(room) ? 2 : 3;
    };
    const all = (this.reached.get(id) ?? []).sort((a, b) => rank(a) - rank(b) || a.ms - b.ms);
    const quick = this.quick ? all.filter(({ ms }) => ms < QUICK) : [];
    return quick.length > 0 ? quick : all;
  }

  secondPlan(plan) {
    const done = new Set(plan);
    const cut = plan.filter((test) => test.cut).map((test) => ({ ...test, more: true }));
    const files = new Set(plan.map(({ file }) => file));
    const others = [...files].flatMap((file) => this.tests.get(file) ?? []).filter((test) => !done.has(test));
    return [...others.sort((a, b) => a.ms - b.ms), ...cut];
  }

  /** What came of each mutant, in their order: `noticed` names the test, null where none noticed. */
  async tryAll(mutants, jobs, told) {
    const results = [];
    let next = 0;
    const work = async () => {
      const thread = new Thread(this.data, jobs);
      while (next < mutants.length) {
        const i = next++;
        const begin = performance.now();
        results[i] = await this.tryOne(thread, mutants[i]);
        results[i].ms = Math.round(performance.now() - begin);
        told(results[i]);
      }
      await thread.stop();
    };
    await Promise.all(Array.from({ length: jobs }, work));
    return results;
  }

  async tryOne(thread, mutant) {
    const plan = this.planOf(mutant);
    const reached = plan.length > 0;
    if (!reached) return { mutant, reached, noticed: null };
    const patience = (begun) => PATIENCE + TIMES * (plan[begun - 1]?.ms ?? 0);
    let answer = await thread.ask({ id: mutant.id, plan }, patience);
    // Before it counts as unnoticed: ten times the random cases, and the tests of those files that found the answer
    // remembered from a test before them.
    const more = this.secondPlan(plan);
    if (answer.noticed === null && more.length > 0 && !this.quick)
      answer = await thread.ask(
        { id: mutant.id, plan: more },
        (begun) => PATIENCE + 10 * TIMES * (more[begun - 1]?.ms ?? 0),
      );
    const { noticed, ended } = answer;
    if (ended !== undefined) return { mutant, reached, noticed: { why: ended } };
    if (noticed === null) return { mutant, reached, noticed };
    const test = [...plan, ...more].find((t) => t.file === noticed.file && t.test === noticed.test);
    const place = `${mutant.file}\n${mutant.in}`;
    const others = (this.noticing.get(place) ?? []).filter((t) => t !== test);
    if (plan.includes(test)) this.noticing.set(place, [test, ...others].slice(0, FIRST));
    return {
      mutant,
      reached,
      noticed: { test: test ? `${test.file} › ${test.name}` : null, why: noticed.why },
    };
  }
}
