import { render } from 'preact';
import { byId } from '../element.js';
import { App } from './app.js';
import { keepPage } from './offline/keep-page.js';

render(<App />, byId('app', HTMLElement));
keepPage();
