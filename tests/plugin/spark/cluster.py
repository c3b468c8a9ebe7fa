"""A real cluster of Spark on this machine: a master and workers, each with an executor process of its own."""

import os
import pathlib
import sys
import time

import pyspark
from pyspark.sql import SparkSession


def started(workers=2):
    """A session in local-cluster mode, of workers with a core each; executors find what this process finds."""
    os.environ["SPARK_HOME"] = str(pathlib.Path(pyspark.__file__).parent)  # executors are started from there
    os.environ["PYSPARK_PYTHON"] = sys.executable
    # Executors work in folders of their own.
    found_here = [os.path.abspath(folder) for folder in os.environ["PYTHONPATH"].split(os.pathsep)]
    settings = {
        "spark.driver.bindAddress": "127.0.0.1",
        "spark.driver.host": "127.0.0.1",
        "spark.executorEnv.PYTHONPATH": os.pathsep.join(found_here),
        "spark.sql.files.openCostInBytes": "134217728",  # a partition for each file
        "spark.sql.warehouse.dir": "/nonexistent",
        "spark.ui.enabled": "false",
        "spark.ui.showConsoleProgress": "false",
    }
    builder = SparkSession.builder.master(f"local-cluster[{workers},1,1024]").appName("jointledger tests")
    for name, value in settings.items():
        builder = builder.config(name, value)
    return builder.getOrCreate()


def children(process):
    """The ids of the processes that this one has started and that are alive."""
    found = []
    for stat in pathlib.Path("/proc").glob("[0-9]*/stat"):
        try:
            after_name = stat.read_text().rpartition(")")[2].split()
        except (FileNotFoundError, ProcessLookupError):
            continue  # it has ended meanwhile
        if int(after_name[1]) == process and after_name[0] != "Z":
            found.append(int(stat.parent.name))
    return found


def executors(spark):
    """The ids of the executor processes."""
    driver = spark.sparkContext._jvm.java.lang.ProcessHandle.current().pid()
    own = [process for process in children(driver) if "CoarseGrainedExecutorBackend" in command(process)]
    return sorted(own)


def command(process):
    try:
        return pathlib.Path(f"/proc/{process}/cmdline").read_text()
    except FileNotFoundError:
        return ""


def python_workers(executor):
    """The ids of the Python processes that run an executor's tasks: the daemon's children."""
    return [worker for daemon in children(executor) for worker in children(daemon)]


def wait_until(condition, what, seconds=120):
    end = time.monotonic() + seconds
    while not (found := condition()):
        assert time.monotonic() < end, f"never came: {what}"
        time.sleep(0.05)
    return found


def tasks_done(spark):
    """How many tasks of the stage under way are done."""
    tracker = spark.sparkContext.statusTracker()
    stages = [tracker.getStageInfo(stage) for stage in tracker.getActiveStageIds()]
    return max((stage.numCompletedTasks for stage in stages if stage), default=0)
