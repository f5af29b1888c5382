/** Fonts and styles of the pages, for Vite to bundle. */
import '@fontsource/b612/latin-400.css';
import '@fontsource/b612/latin-700.css';
import '@fontsource/b612-mono/latin-400.css';
import '@fontsource/b612-mono/latin-700.css';
import './inks.css';
import './base.css';
import './first.css';
import './order.css';
import './papers.css';
import './work.css';
import './debrief.css';
