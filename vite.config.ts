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

/**
 * Phaser for the build: its canvas renderer and what the panel uses, 105 kB gzip instead of 350. Phaser's bundle does not
 * tree-shake, and its sources choose by `typeof FLAG`, which its own build replaces. The types, and `npm run dev`, are the whole.
 */
function phaserParts(): Plugin {
  const src = resolve(import.meta.dirname, 'node_modules/phaser/src').replaceAll('\\', '/');
  const own = '\0phaser';
  const flags = /typeof (CANVAS_RENDERER|WEBGL_RENDERER|WEBGL_DEBUG|FEATURE_SOUND|EXPERIMENTAL|PLUGIN_\w+)\b/g;
  // Those without a name hang themselves into the game objects or the scene when they are read.
  const parts = [
    'polyfills/requestVideoFrame',
    'renderer/canvas/CanvasRenderer',
    'cameras/2d',
    'events/EventEmitter',
    'gameobjects/DisplayList',
    'gameobjects/GameObjectCreator',
    'gameobjects/GameObjectFactory',
    'gameobjects/UpdateList',
    'gameobjects/image/ImageFactory',
    'scene/ScenePlugin',
  ];
  return {
    name: 'phaser-parts',
    apply: 'build',
    enforce: 'pre',
    resolveId: (source) => (source === 'phaser' ? own : undefined),
    load: (id) =>
      id === own
        ? [
            ...parts.map((part) => `import '${src}/${part}';`),
            `export { default as Game } from '${src}/core/Game.js';`,
            `export { default as Scale } from '${src}/scale/index.js';`,
            `export { CANVAS } from '${src}/const.js';`,
          ].join('\n')
        : undefined,
    transform: {
      filter: { id: /phaser[\\/]src/ },
      handler: (code) => code.replace(flags, (_all, flag) => String(flag === 'CANVAS_RENDERER')),
    },
  };
}

export default defineConfig({
  base: './',
  plugins: [scenarioIndex(), phaserParts()],
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    chunkSizeWarningLimit: 1500,
    rolldownOptions: {
      output: { codeSplitting: { groups: [{ name: 'phaser', test: /node_modules[\\/]phaser|^\0phaser$/ }] } },
    },
  },
});
