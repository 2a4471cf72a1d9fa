import { mount } from 'svelte';
import App from './App.svelte';
import { dressPage } from './data/settings.svelte';
import './face/face.css';
import { router } from './shell/router.svelte';

dressPage();
router.start();
const page = document.getElementById('page');
if (page) mount(App, { target: page });
