import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { defineConfig, type Plugin } from 'vite';
import { parse } from 'yaml';

/** What the first page must know of each drill before the YAML parser is loaded: `virtual:scenarios`. */
function scenarioIndex(): Plugin {
  const id = 'virtual:scenarios';
  const dir = resolve(import.meta.dirname, 'scenarios');
  return {
    name: 'scenario-index',
    resolveId: (source) => (source === id ? `\0${id}` : undefined),
    load(source) {
      if (source !== `\0${id}`) return undefined;
      const index = readdirSync(dir)
        .filter((f) => f.endsWith('.yaml'))
        .map((file) => {
          this.addWatchFile(resolve(dir, file));
          const { title, about, minutes } = parse(readFileSync(resolve(dir, file), 'utf8'));
          return { id: file.replace(/\.yaml$/, ''), title, about, minutes };
        });
      return `export default ${JSON.stringify(index)};`;
    },
  };
}

export default defineConfig({
  base: './',
  plugins: [scenarioIndex()],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    chunkSizeWarningLimit: 1500,
    rolldownOptions: {
      output: { codeSplitting: { groups: [{ name: 'phaser', test: /node_modules[\\/]phaser/ }] } },
    },
  },
});
