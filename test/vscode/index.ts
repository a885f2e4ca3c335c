import 'mocha/mocha'; // the browser bundle of mocha: it runs in the web worker host and in the Node host alike

declare const require: (id: string) => unknown;

/** VS Code calls this with the editor open; the last line printed is what `npm test` counts. */
export function run(): Promise<void> {
  (globalThis as { location?: unknown }).location ??= { search: '' }; // mocha reads it; the Node host has none
  mocha.setup({ ui: 'bdd', reporter: 'spec', timeout: 30_000, color: false } as Mocha.MochaOptions);
  require('./activation');
  require('./findings');
  require('./results');
  require('./cards');
  require('./preview');
  require('./sheet');
  require('./writing');
  require('./past-jobs');
  return new Promise((resolve, reject) => {
    const runner = mocha.run((failures) => {
      console.log(`in VS Code: ${runner.stats?.passes ?? 0} passed, ${failures} failed`);
      if (failures) reject(new Error(`${failures} tests failed`));
      else resolve();
    });
  });
}
