import { render } from 'preact';
import { byId } from '../element.js';
import { App } from './app.js';

render(<App />, byId('app', HTMLElement));
