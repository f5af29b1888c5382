/** Styles of the panel, for Vite to bundle; of rules that weigh the same the later one wins. */
import './panel.css';
import './controls/controls.css';
import './cards.css';
import './tiles.css';
import './places/papers.css';
import './places/boards.css';
import './places/side-by-side.css';
import './places/narrow.css';
