"""The program, as a user drives it: one command at a time, in one project."""

import json
import subprocess


class Unexpected(Exception):
    pass


class Program:
    def __init__(self, path, folder):
        self.path, self.folder, self.runs = path, folder, 0
        self.lines = []

    def run(self, command, *options, codes=(0,)):
        """Exit code and the answer; any other code than those expected ends the project."""
        words = [self.path, command, *options, "--format", "json", "--no-ask"]
        self.lines.append(words[1:])
        self.runs += 1
        done = subprocess.run(words, cwd=self.folder, stdin=subprocess.DEVNULL, capture_output=True, close_fds=False)
        if done.returncode not in codes:
            raise Unexpected(f"exit code {done.returncode}: {done.stderr.decode().strip()}")
        if done.returncode in (1, 2):
            return done.returncode, done.stderr.decode()
        return done.returncode, json.loads(done.stdout)
